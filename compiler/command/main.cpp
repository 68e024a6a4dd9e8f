#include "command/run.h"

int main(int argc, char** argv) {
    return curbstop::command::run(argc, argv, CURBSTOP_VERSION);
}

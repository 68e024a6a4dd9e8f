// The main function of every unit-test program, compiled once.
#ifndef CURBSTOP_CATCH_HAS_MAIN
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
#endif

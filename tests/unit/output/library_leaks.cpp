// The layout library's router of right-angled lines (Graphviz 2.42) keeps memory that it has no more use for. It is not
// ours to mend, so the leak check of the sanitizer build passes over what that library asked for, and over nothing
// else.
#if defined(__SANITIZE_ADDRESS__)
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libgvc.so\nleak:libcgraph.so\n";
}
#endif

// The command line: options are read, one command runs, its exit status is the program's.
int main() { return 0; }

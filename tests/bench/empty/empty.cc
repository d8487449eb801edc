// Nothing at all, linked to every shared library that the program is linked to: the least that a
// start of the program could take.

int main() { return 0; }

//! Command line in, exit code out.

fn main() {}

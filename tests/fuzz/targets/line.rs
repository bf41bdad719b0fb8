#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| refasten_fuzz::line(bytes));

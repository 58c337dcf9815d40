//! The machine and the compiler, in words.

use std::fs;
use std::process::Command;
use std::thread;

/// Processor, cores and compiler, as far as the system tells.
pub fn describe() -> String {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    let processor = fs::read_to_string("/proc/cpuinfo").unwrap_or_default();
    let processor = model_name(&processor).unwrap_or("a processor that does not tell its name");
    let memory = fs::read_to_string("/proc/meminfo").unwrap_or_default();
    let memory =
        memory_gib(&memory).map_or(String::new(), |gib| format!(", {gib:.0} GiB of memory"));
    let compiler = Command::new("rustc").arg("--version").output();
    let compiler = compiler.map(|out| String::from_utf8_lossy(&out.stdout).trim().to_owned());
    let compiler = compiler.unwrap_or_else(|_| "an unknown compiler".to_owned());
    let system = (std::env::consts::OS, std::env::consts::ARCH);
    format!(
        "{processor}, {cores} cores{memory}, {} on {}; {compiler}, release build",
        system.0, system.1
    )
}

fn model_name(cpuinfo: &str) -> Option<&str> {
    let line = cpuinfo
        .lines()
        .find(|line| line.starts_with("model name"))?;
    Some(line.split_once(':')?.1.trim())
}

fn memory_gib(meminfo: &str) -> Option<f64> {
    let line = meminfo
        .lines()
        .find_map(|line| line.strip_prefix("MemTotal:"))?;
    let kib: f64 = line.split_whitespace().next()?.parse().ok()?;
    Some(kib / 1024.0 / 1024.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_system_is_read_where_it_tells() {
        assert_eq!(
            model_name("processor\t: 0\nmodel name\t: Some CPU\n"),
            Some("Some CPU")
        );
        assert_eq!(memory_gib("MemTotal:       2097152 kB\n"), Some(2.0));
        assert!(describe().contains("cores"));
    }
}

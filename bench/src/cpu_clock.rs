//! Time that this thread has computed, so that other work on the machine is not counted.

use std::fs;
use std::time::Instant;

/// Started once, read as often as one likes.
#[derive(Clone, Copy, Debug)]
pub struct CpuClock {
    from_s: Option<f64>,
    wall: Instant,
}

impl CpuClock {
    /// Starts at nought.
    pub fn start() -> Self {
        Self {
            from_s: on_cpu_s(),
            wall: Instant::now(),
        }
    }

    /// Seconds this thread has been on a core since; by the wall clock where the system does not tell (only Linux does).
    pub fn seconds(&self) -> f64 {
        match (self.from_s, on_cpu_s()) {
            (Some(from), Some(to)) => to - from,
            _ => self.wall.elapsed().as_secs_f64(),
        }
    }
}

/// First field of `schedstat`: nanoseconds on the processor (Linux, Documentation/scheduler/sched-stats.rst).
fn on_cpu_s() -> Option<f64> {
    let text = fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    let nanoseconds: f64 = text.split_whitespace().next()?.parse().ok()?;
    Some(nanoseconds * 1e-9)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    #[test]
    fn sleep_is_not_counted_where_the_system_tells() {
        let clock = CpuClock::start();
        std::thread::sleep(Duration::from_millis(60));
        if clock.from_s.is_some() {
            assert!(clock.seconds() < 0.04, "{}", clock.seconds());
        }
        let wall = Instant::now();
        let mut sum = 0u64;
        while wall.elapsed() < Duration::from_millis(60) {
            sum = sum.wrapping_mul(31).wrapping_add(7);
        }
        assert!(clock.seconds() > 0.002, "{} {sum}", clock.seconds());
    }
}

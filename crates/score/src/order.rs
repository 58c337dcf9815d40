//! The playing order: repeats, endings, da capo, dal segno, coda and fine, as a list of measures.

use std::collections::BTreeMap;

use crate::jump::{Jump, JumpKind};
use crate::{Doubt, Measure, Played};

/// Most measures of a playing order.
const MOST_BARS: usize = 50_000;
/// Most note heads of a playing order.
const MOST_NOTES: usize = 1_000_000;

/// The measures in the order in which they are played. `notes` counts the note heads of each.
///
/// A section that ends with a repeat is played twice, or as often as the repeat or its endings say.
/// A jump without `passes` is taken once, after the repeats at its measure; 'to coda' and 'fine'
/// hold once a jump back was taken. After a jump back, repeats are not taken again, and of several
/// endings the last is played, unless the source says otherwise.
pub(crate) fn playing_order(
    measures: &[Measure],
    jumps: &[Jump],
    notes: &[usize],
    doubt: &mut impl FnMut(Option<usize>, Doubt),
) -> Vec<Played> {
    let mut player = Player::new(measures, jumps);
    let mut order = Vec::new();
    let mut heads = 0;
    while let Some(measure) = player.next(doubt) {
        heads += notes.get(measure).copied().unwrap_or(0);
        if order.len() >= MOST_BARS || heads > MOST_NOTES {
            doubt(None, Doubt::OrderTooLong { limit: MOST_BARS });
            return written(measures);
        }
        order.push(Played {
            measure,
            pass: player.visits[measure],
        });
    }
    let visits = player.visits.iter().enumerate();
    for (measure, _) in visits.filter(|(_, visits)| **visits == 0) {
        doubt(Some(measure), Doubt::NeverPlayed);
    }
    order
}

fn written(measures: &[Measure]) -> Vec<Played> {
    (0..measures.len())
        .map(|measure| Played { measure, pass: 1 })
        .collect()
}

struct Player<'a> {
    measures: &'a [Measure],
    /// For each measure under a bracket, the endings it stands among.
    groups: Vec<Option<Group>>,
    /// Jumps and targets by measure.
    jumps: BTreeMap<usize, Vec<&'a Jump>>,
    /// How often each measure has been played.
    visits: Vec<u32>,
    /// Jumps that were taken, by address in `jumps`.
    taken: Vec<&'a Jump>,
    /// The measure to be looked at next.
    at: usize,
    /// Where the section began that a repeat goes back to.
    section: usize,
    /// At which playing of the section.
    pass: u32,
    /// A jump back was taken.
    jumped: bool,
}

/// Endings in a row.
#[derive(Clone, Copy, Debug)]
struct Group {
    /// The first measure behind them.
    end: usize,
    /// The highest number on a bracket.
    passes: u32,
    /// A repeat in them is taken after a jump too.
    after_jump: bool,
}

impl<'a> Player<'a> {
    fn new(measures: &'a [Measure], jumps: &'a [Jump]) -> Self {
        let mut by_measure: BTreeMap<usize, Vec<&Jump>> = BTreeMap::new();
        for jump in jumps {
            by_measure.entry(jump.measure).or_default().push(jump);
        }
        Self {
            measures,
            groups: groups(measures),
            jumps: by_measure,
            visits: vec![0; measures.len()],
            taken: Vec::new(),
            at: 0,
            section: 0,
            pass: 1,
            jumped: false,
        }
    }

    /// The next measure to be played.
    fn next(&mut self, doubt: &mut impl FnMut(Option<usize>, Doubt)) -> Option<usize> {
        loop {
            let measure = self.measures.get(self.at)?;
            if measure.repeat_start && self.at != self.section {
                self.begin_section(self.at);
            }
            let Some(ending) = &measure.ending else { break };
            let group = self.groups[self.at];
            let pass = match group {
                Some(group) if self.jumped && !group.after_jump => group.passes,
                _ => self.pass,
            };
            if ending.passes.contains(&pass) {
                break;
            }
            self.at += 1;
            self.leave_group(group);
        }
        let played = self.at;
        self.visits[played] += 1;
        self.go_on(doubt);
        Some(played)
    }

    /// Where to go after the measure that was just played.
    fn go_on(&mut self, doubt: &mut impl FnMut(Option<usize>, Doubt)) {
        let at = self.at;
        let group = self.groups[at];
        if let Some(repeat) = self.measures[at].repeat_end {
            let usual = group.map_or(2, |group| group.passes);
            let times = repeat.times.unwrap_or(usual);
            if self.pass < times && (!self.jumped || repeat.after_jump) {
                self.pass += 1;
                self.at = self.section;
                return;
            }
        }
        if let Some(jump) = self.jump_due(at) {
            self.take(jump, doubt);
            return;
        }
        self.at += 1;
        if group.is_some() {
            self.leave_group(group);
        } else if self.measures[at].repeat_end.is_some() {
            self.begin_section(self.at);
        }
    }

    fn begin_section(&mut self, at: usize) {
        self.section = at;
        self.pass = 1;
    }

    /// Behind the last of several endings a new section begins.
    fn leave_group(&mut self, group: Option<Group>) {
        if group.is_some_and(|group| self.at >= group.end) {
            self.begin_section(self.at);
        }
    }

    fn jump_due(&self, at: usize) -> Option<&'a Jump> {
        let here = self.jumps.get(&at)?;
        let due = |jump: &&&Jump| {
            let at_pass = jump.passes.contains(&self.visits[at]);
            let told = !jump.passes.is_empty();
            match jump.kind {
                JumpKind::Segno(_) | JumpKind::Coda(_) => false,
                JumpKind::Fine | JumpKind::ToCoda(_) => at_pass || (!told && self.jumped),
                JumpKind::DaCapo | JumpKind::DalSegno(_) => {
                    at_pass || (!told && !self.taken.iter().any(|taken| taken == *jump))
                }
            }
        };
        here.iter().find(due).copied()
    }

    fn take(&mut self, jump: &'a Jump, doubt: &mut impl FnMut(Option<usize>, Doubt)) {
        let here = jump.measure;
        let target = match &jump.kind {
            JumpKind::Fine => Some(self.measures.len()),
            JumpKind::DaCapo => Some(0),
            JumpKind::DalSegno(name) => self.target(name, |kind| match kind {
                JumpKind::Segno(name) => Some(name),
                _ => None,
            }),
            JumpKind::ToCoda(name) => self.target(name, |kind| match kind {
                JumpKind::Coda(name) => Some(name),
                _ => None,
            }),
            JumpKind::Segno(_) | JumpKind::Coda(_) => None,
        };
        if matches!(jump.kind, JumpKind::DaCapo | JumpKind::DalSegno(_)) {
            self.jumped |= target.is_some();
            self.taken.push(jump);
        }
        match target {
            Some(target) => self.at = target,
            None => {
                let what = "a jump to a sign that is not there";
                doubt(Some(here), Doubt::Order { what });
                self.at = here + 1;
            }
        }
        self.begin_section(self.at);
    }

    /// The measure of the sign of that name, or of the only sign of that kind.
    fn target(&self, name: &str, named: impl Fn(&JumpKind) -> Option<&String>) -> Option<usize> {
        let signs = || {
            let all = self.jumps.values().flatten();
            all.filter_map(|jump| named(&jump.kind).map(|name| (jump.measure, name)))
        };
        let same = signs().find(|(_, sign)| *sign == name);
        let only = || signs().next().filter(|_| signs().count() == 1);
        same.or_else(only).map(|(measure, _)| measure)
    }
}

/// Finds endings in a row. A bracket whose first number was there already begins a new row.
fn groups(measures: &[Measure]) -> Vec<Option<Group>> {
    let mut groups = vec![None; measures.len()];
    let mut at = 0;
    while at < measures.len() {
        let begin = at;
        let mut seen: Vec<u32> = Vec::new();
        while let Some(ending) = measures.get(at).and_then(|measure| measure.ending.as_ref()) {
            if ending.first {
                if ending.passes.iter().any(|pass| seen.contains(pass)) {
                    break;
                }
                seen.extend(&ending.passes);
            }
            at += 1;
        }
        if at == begin {
            at += 1;
            continue;
        }
        let ends = measures[begin..at]
            .iter()
            .filter_map(|measure| measure.repeat_end);
        let group = Group {
            end: at,
            passes: seen.iter().copied().max().unwrap_or(1),
            after_jump: ends.into_iter().any(|repeat| repeat.after_jump),
        };
        groups[begin..at].fill(Some(group));
    }
    groups
}

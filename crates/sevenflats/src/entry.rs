//! One function for each way in by which foreign bytes come: what a fuzzer calls, and what the
//! property tests call on a stable toolchain (`tests/entry.rs`). Each must return, whatever it gets.

use harp::{Harp, Setting, Setup, StringName};
use hyper::Request;
use hyper::body::Bytes;
use hyper::header::{ACCEPT_ENCODING, ETAG, HOST, IF_NONE_MATCH};
use pedals::{Feet, LeverWishes, Wishes};
use pitch::{ReferencePitch, SpelledPitch};
use tuning::{Ear, Heard, Listening};

use crate::serve::{self, answer::answer, page::Page};
use crate::sound::{PcmFormat, Sound};
use harp::Naming;
use pedals::within_reach;

/// A harp's own file: read, and asked for everything that can be asked of a harp.
pub fn harp_file(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    if let Ok(harp) = Harp::from_toml(&text) {
        let _ = harp.sheet(ReferencePitch::A440);
        let _ = harp.load(ReferencePitch::A440);
        let _ = harp.standing(&Setup::open(ReferencePitch::A440));
    }
}

/// A setting: what is read is written as it was read.
pub fn setting(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    if let Ok(setting) = text.parse::<Setting>() {
        assert_eq!(setting.to_string().parse(), Ok(setting), "{text}");
    }
}

/// The name of a string, of a pitch, or a way of naming.
pub fn name(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    if let Ok(string) = text.parse::<StringName>() {
        assert_eq!(string.to_string().parse(), Ok(string), "{text}");
        assert_eq!(string.harp_number().parse(), Ok(string), "{text}");
    }
    if let Ok(pitch) = text.parse::<SpelledPitch>() {
        assert_eq!(pitch.to_string().parse(), Ok(pitch), "{text}");
    }
    let _ = text.parse::<Naming>();
}

/// A request to the page's server: the first line is its path, the second the name it calls us, the
/// others what it says of codings and of what it keeps. It is answered by a file of the page, word
/// for word, or by none.
pub fn request(bytes: &[u8]) {
    const INSIDE: &[u8] = b"<!doctype html>";
    let mut lines = bytes.split(|byte| *byte == b'\n');
    let mut line = || lines.next().unwrap_or_default();
    let (path, host) = (line(), line());
    let request = Request::builder().uri(path).header(HOST, host);
    let request = request.header(ACCEPT_ENCODING, line());
    let Ok(request) = request.header(IF_NONE_MATCH, line()).body(()) else {
        return;
    };
    let page = Page::of([("index.html".to_owned(), Bytes::from_static(INSIDE))]);
    let answer = answer(&page, serve::port::USUAL, &request);
    let is_file = answer.headers().contains_key(ETAG);
    assert_eq!(answer.status().is_success(), answer.body() == INSIDE);
    assert!(!is_file || answer.status().is_success() || answer.status() == 304);
}

/// A sound file: decoded to its end and heard. The first seconds are enough.
pub fn sound_file(bytes: &[u8]) {
    if let Ok(sound) = Sound::from_bytes(bytes.to_vec()) {
        hear(sound);
    }
}

/// Raw samples, in both forms.
pub fn samples(bytes: &[u8]) {
    for format in [PcmFormat::S16le, PcmFormat::F32le] {
        let stream = Box::new(std::io::Cursor::new(bytes.to_vec()));
        if let Ok(sound) = Sound::pcm(stream, format, 48_000) {
            hear(sound);
        }
    }
}

/// Most moments of a score that are planned here.
const PLANNED: usize = 2_000;
/// Steps that a plan may take here.
const WORK: u64 = 20_000;

/// A score, MusicXML, compressed or MIDI: read, and planned for pedals and for levers in little time;
/// whatever was planned, replaying it note by note finds no fault.
pub fn score_file(bytes: &[u8]) {
    let Ok(piece) = score::read(bytes, &score::Options::default()) else {
        return;
    };
    let demand = within_reach(&piece, true).demand;
    let harps = (Harp::named("pedal47"), Harp::named("lever34"));
    let ((Ok(pedal_harp), Ok(lever_harp)), true) = (harps, demand.moments.len() <= PLANNED) else {
        return;
    };
    for tau_us in [0, 400_000] {
        let wishes = Wishes {
            feet: Feet::with_least_time(tau_us),
            work_limit: WORK,
            ..Wishes::comfortable()
        };
        let plan = pedals::plan(&demand, &pedal_harp, &wishes);
        let faults = pedals::replay(&demand, &pedal_harp, &wishes, &plan);
        assert_eq!(faults, [], "{plan:?}");
    }
    let plan = pedals::plan_levers(&demand, &lever_harp, &LeverWishes::default());
    assert!(plan.is_some_and(|plan| plan.cannot.len() <= demand.heads()));
}

/// How much of a sound is heard, in seconds.
const HEARD_S: f64 = 3.0;

fn hear(mut sound: Sound) {
    let standing = Harp::named("pedal47")
        .and_then(|harp| harp.standing(&Setup::open(ReferencePitch::A440)))
        .unwrap_or_default();
    let listening = Listening::new(ReferencePitch::A440);
    let Ok(mut ear) = Ear::new(sound.rate_hz(), standing, listening) else {
        return;
    };
    while sound.read_s() < HEARD_S {
        match sound.next_block() {
            Ok(Some(samples)) => check(&ear.push(samples)),
            Ok(None) | Err(_) => break,
        }
    }
    check(&ear.finish());
}

/// Whatever came in, no figure that comes out is no number.
fn check(heard: &[Heard]) {
    for heard in heard {
        if let Heard::Reading(reading) = heard {
            let figures = [
                reading.at_s,
                reading.heard_hz,
                reading.off_cents,
                reading.u95_cents,
                reading.f1_hz,
                reading.f0_hz,
                reading.b,
                reading.glide_cents,
                reading.string_certainty,
            ];
            assert!(
                figures.iter().all(|figure| figure.is_finite()),
                "{reading:?}"
            );
        }
    }
}

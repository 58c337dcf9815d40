//! What every answer forbids the browser: to load anything from elsewhere, to be shown inside
//! another page, to use what the page has no need of.

use hyper::header::{HeaderMap, HeaderName, HeaderValue};

/// What may be loaded and run: our own files, and pictures that the page makes (Content Security
/// Policy Level 3). `wasm-unsafe-eval` lets WebAssembly compile, and no text be run as script.
const CONTENT: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
img-src 'self' data:; font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; \
media-src 'self' blob:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// What of the machine may be used: the microphone, and a screen that stays on while both hands are
/// on the harp. All else that W3C's list of policy-controlled features names is off, where browsers know
/// it everywhere: a name that they do not know makes them complain of us (in Chromium on Linux,
/// `bluetooth` and `web-share`), and those two ask the reader anyway.
const PERMISSIONS: &str = "microphone=(self), screen-wake-lock=(self), accelerometer=(), autoplay=(), \
browsing-topics=(), camera=(), clipboard-read=(), clipboard-write=(), compute-pressure=(), \
cross-origin-isolated=(), display-capture=(), encrypted-media=(), fullscreen=(), gamepad=(), geolocation=(), \
gyroscope=(), hid=(), identity-credentials-get=(), idle-detection=(), keyboard-map=(), local-fonts=(), \
magnetometer=(), midi=(), otp-credentials=(), payment=(), picture-in-picture=(), \
publickey-credentials-create=(), publickey-credentials-get=(), serial=(), storage-access=(), usb=(), \
window-management=(), xr-spatial-tracking=()";

/// Puts the prohibitions on an answer, whatever it answers.
pub(crate) fn forbid(headers: &mut HeaderMap) {
    for (name, value) in [
        ("content-security-policy", CONTENT),
        ("permissions-policy", PERMISSIONS),
        ("x-content-type-options", "nosniff"),
        ("referrer-policy", "no-referrer"),
        ("cross-origin-opener-policy", "same-origin"),
        ("cross-origin-resource-policy", "same-origin"),
    ] {
        headers.insert(
            HeaderName::from_static(name),
            HeaderValue::from_static(value),
        );
    }
}

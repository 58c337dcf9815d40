//! What kind of thing a file of the page is, by the end of its name.

/// Its media type for `Content-Type`. Of what is not known nothing is said but that it is bytes.
///
/// JavaScript as RFC 9239 has it, WebAssembly as the WebAssembly Web API asks, the manifest as the
/// Web Application Manifest, fonts as RFC 8081; the others as IANA's registry of media types.
pub(crate) fn media_type(name: &str) -> &'static str {
    let extension = name.rsplit_once('.').map_or("", |(_, extension)| extension);
    match extension.to_ascii_lowercase().as_str() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "txt" => "text/plain; charset=utf-8",
        "md" => "text/markdown; charset=utf-8",
        // JSON is UTF-8 by definition and knows no charset (RFC 8259, 8.1 and 11).
        "json" | "map" => "application/json",
        "webmanifest" => "application/manifest+json",
        "wasm" => "application/wasm",
        "woff2" => "font/woff2",
        "woff" => "font/woff",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "webp" => "image/webp",
        "ico" => "image/vnd.microsoft.icon",
        "pdf" => "application/pdf",
        "mid" => "audio/midi",
        "wav" => "audio/wav",
        "musicxml" => "application/vnd.recordare.musicxml+xml",
        "mxl" => "application/vnd.recordare.musicxml",
        "gz" => "application/gzip",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::media_type;

    #[test]
    fn the_end_of_the_name_tells_the_kind() {
        assert_eq!(
            media_type("assets/index-D3fXa9Qb.js"),
            "text/javascript; charset=utf-8"
        );
        assert_eq!(media_type("later/desk.WASM"), "application/wasm");
        assert_eq!(media_type("LICENSE"), "application/octet-stream");
        assert_eq!(media_type("html"), "application/octet-stream");
    }
}

//! The plainest FLAC that there is, for tests: one channel of 16 bits, every sample written out
//! (RFC 9639, sections 8.2, 9.1 and 9.2.3, "verbatim").

const BLOCK: usize = 4096;

/// A FLAC file of these samples.
pub(crate) fn bytes(rate_hz: u32, samples: &[i16]) -> Vec<u8> {
    let mut file = b"fLaC".to_vec();
    file.extend_from_slice(&[0x80, 0, 0, 34]); // the last metadata block, STREAMINFO, 34 bytes
    file.extend_from_slice(&(BLOCK as u16).to_be_bytes());
    file.extend_from_slice(&(BLOCK as u16).to_be_bytes());
    file.extend_from_slice(&[0; 6]); // frame sizes unknown
    // 20 bits of rate, 3 of channels − 1, 5 of bits − 1, 36 of samples
    let about = (u64::from(rate_hz) << 44) | (15 << 36) | samples.len() as u64;
    file.extend_from_slice(&about.to_be_bytes());
    file.extend_from_slice(&[0; 16]); // no checksum of the sound
    for (number, block) in samples.chunks(BLOCK).enumerate() {
        file.extend(frame(number as u32, block));
    }
    file
}

fn frame(number: u32, block: &[i16]) -> Vec<u8> {
    // sync code, fixed block size; block size in 16 bits at the end, rate as in STREAMINFO; one
    // channel, 16 bits a sample
    let mut frame = vec![0xff, 0xf8, 0x70, 0x08];
    let number = char::from_u32(number).unwrap(); // coded as UTF-8 codes a character
    frame.extend_from_slice(number.encode_utf8(&mut [0; 4]).as_bytes());
    frame.extend_from_slice(&(block.len() as u16 - 1).to_be_bytes());
    frame.push(crc(&frame, 8, 0x07) as u8);
    frame.push(0x02); // a verbatim subframe
    for sample in block {
        frame.extend_from_slice(&sample.to_be_bytes());
    }
    let check = crc(&frame, 16, 0x8005) as u16;
    frame.extend_from_slice(&check.to_be_bytes());
    frame
}

/// The cyclic redundancy check of some bits, highest first, from zero.
fn crc(bytes: &[u8], bits: u32, polynomial: u32) -> u32 {
    let top = 1 << (bits - 1);
    bytes.iter().fold(0, |crc, &byte| {
        (0..8).fold(crc ^ (u32::from(byte) << (bits - 8)), |crc, _| {
            let next = (crc << 1) & ((top << 1) - 1);
            if crc & top == 0 {
                next
            } else {
                next ^ polynomial
            }
        })
    })
}

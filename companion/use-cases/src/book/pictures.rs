//! Pictures that a cook gives of a dish: made upright and small once, so that
//! what is kept needs no other file, and nothing of the phone is in it.

use super::{BookError, find};
use evenhand_kitchen::book::{MOST_PICTURES, PictureId, Pictured, picture_key};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::prep::{Board, menu_period};
use evenhand_kitchen::units::{InputError, Reason, typed};
use evenhand_kitchen::{expected, problem};
use evenhand_store::{KeptPicture, Store, StoreError};
use image::codecs::jpeg::JpegEncoder;
use image::error::ImageError;
use image::imageops::FilterType;
use image::metadata::Orientation;
use image::{
    ColorType, DynamicImage, ExtendedColorType, ImageDecoder, ImageEncoder, ImageFormat,
    ImageReader, RgbImage,
};
use jiff::Timestamp;
use jiff::civil::date;
use jiff::tz::TimeZone;
use std::io::{self, Cursor, Read};
use std::path::{Path, PathBuf};

/// The longest side that is kept, in pixels: 11 cm at 300 dots an inch.
pub const LONGEST_SIDE: u32 = 1280;
/// The longest file that is read: a phone's photographs are a fifth of it.
const LARGEST_FILE: u64 = 40_000_000;
/// The longest that is kept.
const LARGEST_KEPT: usize = 1_500_000;
/// The most pixels that are read: those of the finest phones, and some.
const MOST_PIXELS: u64 = 220_000_000;
/// Of JPEG's quality; the next one where the picture is too long at the one before.
const QUALITIES: [u8; 3] = [85, 70, 50];
/// A profile of colours that is longer is none of a camera's.
const LONGEST_PROFILE: usize = 16 * 1024;

/// Why a picture is not kept.
#[derive(Debug, thiserror::Error)]
pub enum PictureError {
    /// The file cannot be read.
    #[error("{path}: it cannot be read: {error}; nothing was kept")]
    Unreadable {
        /// Which.
        path: PathBuf,
        /// Why.
        error: io::Error,
    },
    /// It is no picture, or none that can be kept.
    #[error("{path}: {error}; nothing was kept")]
    Refused {
        /// Which file.
        path: PathBuf,
        /// What is wrong with it.
        error: InputError,
    },
    /// Nothing has the name.
    #[error(
        "name: {name:?} is no dish, no formula and in no menu; add it first, or write the name as it is there"
    )]
    Unknown {
        /// The name.
        name: String,
    },
    /// The same picture of it is there.
    #[error("picture {0} of it is the same; nothing was kept")]
    There(PictureId),
    /// It has as many as there is room for.
    #[error(
        "{of:?} has {MOST_PICTURES} pictures, as many as its page has room for; take one off first"
    )]
    TooMany {
        /// What it is of.
        of: String,
    },
    /// A name or a caption that is none.
    #[error(transparent)]
    Input(#[from] InputError),
    /// The book does not answer.
    #[error(transparent)]
    Book(BookError),
    /// The store does not answer.
    #[error(transparent)]
    Store(#[from] StoreError),
}

impl PictureError {
    /// Whether what was asked, or a file, is at fault.
    #[must_use]
    pub const fn is_bad_input(&self) -> bool {
        match self {
            Self::Store(error) | Self::Book(BookError::Store(error)) => error.is_bad_input(),
            _ => true,
        }
    }
}

/// A picture made ready to be kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ready {
    /// JPEG, upright, no side longer than [`LONGEST_SIDE`].
    pub jpeg: Vec<u8>,
    /// How wide, in pixels.
    pub width: u32,
    /// How tall, in pixels.
    pub height: u32,
}

/// Keeps a picture of a dish, a formula or a preparation of a menu, under the
/// name as it is spelled there.
///
/// # Errors
/// [`PictureError`]; then nothing is kept.
pub fn add_picture(
    data: &Path,
    store: &mut Store,
    pictured: &Pictured,
    file: &Path,
    at: Timestamp,
) -> Result<KeptPicture, PictureError> {
    let name = known_name(data, store, pictured.of())?.ok_or_else(|| PictureError::Unknown {
        name: pictured.of().to_owned(),
    })?;
    let pictured = Pictured::new(&name, pictured.caption())?;
    let kept = store.pictures(Some(&pictured.key()))?;
    if kept.len() >= MOST_PICTURES {
        return Err(PictureError::TooMany { of: name });
    }
    let image = read_picture(file)?.jpeg;
    if let Some(same) = kept.iter().find(|kept| kept.image == image) {
        return Err(PictureError::There(same.id));
    }
    let id = store.add_picture(&pictured, &image, at)?;
    Ok(KeptPicture {
        id,
        pictured,
        image,
        added: at,
    })
}

/// How the dish, the formula or the preparation of any menu that has the name
/// spells it.
fn known_name(data: &Path, store: &Store, name: &str) -> Result<Option<String>, PictureError> {
    if let Ok(dish) = DishName::new("name", name)
        && let Some(dish) = store.dish(&dish)?
    {
        return Ok(Some(dish.name.as_str().to_owned()));
    }
    match find(data, name) {
        Ok(formula) => return Ok(Some(formula.name().to_owned())),
        Err(BookError::NotThere { .. }) => {}
        Err(error) => return Err(PictureError::Book(error)),
    }
    let wanted = picture_key(name);
    Ok(store.menus()?.iter().find_map(|(day, menu)| {
        let from = menu_period(menu).map_or(None, |(from, _)| from);
        let on = day.or(from).unwrap_or(date(2026, 1, 1));
        let board = Board::from_menu(menu, on, TimeZone::UTC).ok()?;
        board
            .steps()
            .map(|(_, step)| &step.preparation)
            .find(|preparation| picture_key(preparation) == wanted)
            .cloned()
    }))
}

/// The pictures of whatever has one of these names, in the order they were added.
///
/// # Errors
/// Where the store cannot be read.
pub fn pictures_of<'n>(
    store: &Store,
    names: impl IntoIterator<Item = &'n str>,
) -> Result<Vec<KeptPicture>, StoreError> {
    let mut keys: Vec<String> = names.into_iter().map(picture_key).collect();
    keys.sort_unstable();
    keys.dedup();
    let mut all = Vec::new();
    for key in keys {
        all.extend(store.pictures(Some(&key))?);
    }
    all.sort_by_key(|kept| kept.id);
    Ok(all)
}

/// Reads the file of a picture and makes it ready.
///
/// # Errors
/// [`PictureError::Unreadable`] and [`PictureError::Refused`].
pub fn read_picture(path: &Path) -> Result<Ready, PictureError> {
    let unreadable = |error| PictureError::Unreadable {
        path: path.to_owned(),
        error,
    };
    let mut bytes = Vec::new();
    std::fs::File::open(path)
        .and_then(|file| file.take(LARGEST_FILE + 1).read_to_end(&mut bytes))
        .map_err(unreadable)?;
    ready(&bytes).map_err(|error| PictureError::Refused {
        path: path.to_owned(),
        error,
    })
}

fn wrong(value: &str, problem: Reason, expected: Reason) -> InputError {
    InputError::new("picture", value, problem, expected)
}

/// Makes a picture ready: upright by what the camera said of it, no side longer
/// than [`LONGEST_SIDE`], transparent parts white, as JPEG without anything of
/// the camera or the place but its profile of colours. What is ready already
/// stays as it is, byte for byte.
///
/// # Errors
/// What is no whole PNG or JPEG, or is too large.
pub fn ready(bytes: &[u8]) -> Result<Ready, InputError> {
    const EXPECTED: Reason = expected!("png-or-jpeg");
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(wrong(
            &format!("more than {} MB", LARGEST_FILE / 1_000_000),
            problem!("too-large"),
            expected!("smaller-picture"),
        ));
    }
    let mut reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .map_err(|_| wrong("", problem!("not-readable"), EXPECTED))?;
    let format = match reader.format() {
        Some(format @ (ImageFormat::Jpeg | ImageFormat::Png)) => format,
        _ if is_heif(bytes) => {
            return Err(wrong(
                "HEIC or AVIF",
                problem!("not-read-here"),
                expected!("compatible-picture"),
            ));
        }
        Some(other) => {
            return Err(wrong(
                &format!("{other:?}"),
                problem!("neither-png-nor-jpeg"),
                EXPECTED,
            ));
        }
        None if bytes.is_empty() => return Err(wrong("", problem!("empty-file"), EXPECTED)),
        None => return Err(wrong("", problem!("no-picture"), EXPECTED)),
    };
    let called = match format {
        ImageFormat::Jpeg => "JPEG",
        _ => "PNG",
    };
    let broken = |error: &ImageError| {
        let why = error.to_string();
        let why = why.lines().next().unwrap_or_default();
        wrong(
            called,
            problem!("unreadable-because", why = typed(why)),
            expected!("opens-elsewhere"),
        )
    };
    // How many pixels there may be is asked before any is read.
    reader.no_limits();
    let mut decoder = reader.into_decoder().map_err(|error| broken(&error))?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(wrong(
            &format!("{width} x {height} pixels"),
            problem!("too-large"),
            expected!("smaller-picture"),
        ));
    }
    if format == ImageFormat::Jpeg && is_cut_off(bytes) {
        return Err(wrong("JPEG", problem!("cut-off"), expected!("copy-again")));
    }
    let orientation = decoder.orientation().map_err(|error| broken(&error))?;
    let profile = decoder.icc_profile().unwrap_or_default();
    let is_bare = [
        decoder.exif_metadata(),
        decoder.xmp_metadata(),
        decoder.iptc_metadata(),
    ]
    .iter()
    .all(|metadata| matches!(metadata, Ok(None)));
    let is_ready = format == ImageFormat::Jpeg
        && is_bare
        && orientation == Orientation::NoTransforms
        && width.max(height) <= LONGEST_SIDE
        && bytes.len() <= LARGEST_KEPT
        && matches!(decoder.color_type(), ColorType::Rgb8 | ColorType::L8);
    let image = DynamicImage::from_decoder(decoder).map_err(|error| broken(&error))?;
    if is_ready {
        return Ok(Ready {
            jpeg: bytes.to_owned(),
            width,
            height,
        });
    }
    let mut image = if width.max(height) > LONGEST_SIDE {
        image.resize(LONGEST_SIDE, LONGEST_SIDE, FilterType::Triangle)
    } else {
        image
    };
    image.apply_orientation(orientation);
    let image = on_white(image);
    let profile = profile
        .filter(|profile| profile.len() <= LONGEST_PROFILE && profile.get(16..20) == Some(b"RGB "));
    let (width, height) = image.dimensions();
    let mut jpeg = Vec::new();
    for quality in QUALITIES {
        jpeg.clear();
        let mut encoder = JpegEncoder::new_with_quality(&mut jpeg, quality);
        if let Some(profile) = &profile {
            // A profile that cannot be written is none.
            let _ = encoder.set_icc_profile(profile.clone());
        }
        encoder
            .write_image(&image, width, height, ExtendedColorType::Rgb8)
            .map_err(|error| broken(&error))?;
        if jpeg.len() <= LARGEST_KEPT {
            break;
        }
    }
    Ok(Ready {
        jpeg,
        width,
        height,
    })
}

/// Paper is white behind what is transparent.
fn on_white(image: DynamicImage) -> RgbImage {
    if !image.color().has_alpha() {
        return image.into_rgb8();
    }
    let image = image.into_rgba8();
    RgbImage::from_fn(image.width(), image.height(), |x, y| {
        let [red, green, blue, alpha] = image.get_pixel(x, y).0;
        let alpha = u32::from(alpha);
        let over =
            |colour: u8| ((u32::from(colour) * alpha + 255 * (255 - alpha) + 127) / 255) as u8;
        image::Rgb([over(red), over(green), over(blue)])
    })
}

/// Whether it begins as ISO base media files do (ISO/IEC 14496-12, from memory)
/// of a brand that phones write pictures in.
fn is_heif(bytes: &[u8]) -> bool {
    bytes.get(4..8) == Some(b"ftyp")
        && matches!(
            bytes.get(8..12),
            Some(b"heic" | b"heix" | b"heim" | b"heis" | b"mif1" | b"msf1" | b"avif")
        )
}

/// Whether a JPEG has no end of image after its last start of scan (ITU-T T.81,
/// annex B, from memory): within a scan neither stands by chance.
fn is_cut_off(bytes: &[u8]) -> bool {
    const START_OF_SCAN: [u8; 2] = [0xff, 0xda];
    const END_OF_IMAGE: [u8; 2] = [0xff, 0xd9];
    let last = |marker: [u8; 2]| bytes.windows(2).rposition(|two| *two == marker);
    last(END_OF_IMAGE) < last(START_OF_SCAN)
}

/// How wide and tall a picture that is kept is; `None` where it does not read.
#[must_use]
pub fn dimensions(jpeg: &[u8]) -> Option<(u32, u32)> {
    ImageReader::with_format(Cursor::new(jpeg), ImageFormat::Jpeg)
        .into_dimensions()
        .ok()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const RED: [u8; 3] = [210, 20, 20];
    const BLUE: [u8; 3] = [20, 20, 210];

    /// Left half red, right half blue.
    fn halves(width: u32, height: u32) -> RgbImage {
        RgbImage::from_fn(width, height, |x, _| {
            image::Rgb(if x < width / 2 { RED } else { BLUE })
        })
    }

    fn written(image: &DynamicImage, format: ImageFormat) -> Vec<u8> {
        let mut bytes = Cursor::new(Vec::new());
        image.write_to(&mut bytes, format).unwrap();
        bytes.into_inner()
    }

    /// The same JPEG with what a phone writes into it: an Exif segment with one
    /// entry, tag 0x0112, orientation (CIPA DC-008, Exif 2.32, 4.6.4 and 4.7.2,
    /// from memory), and `more` after it, such as where it was taken.
    fn as_a_phone_has_it(jpeg: &[u8], orientation: u8, more: &[u8]) -> Vec<u8> {
        let mut exif = b"Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0".to_vec();
        exif.extend([orientation, 0, 0, 0, 0, 0, 0, 0]);
        exif.extend(more);
        let length = (exif.len() as u16 + 2).to_be_bytes();
        [&jpeg[..2], &[0xff, 0xe1], &length, &exif, &jpeg[2..]].concat()
    }

    fn looks_like(found: image::Rgb<u8>, wanted: [u8; 3]) -> bool {
        found.0.iter().zip(wanted).all(|(a, b)| a.abs_diff(b) < 40)
    }

    /// Where the stored left side is seen, by Exif's table of orientations: "the
    /// 0th column is the visual left, right, right, left, top, top, bottom, bottom"
    /// for 1 to 8 (CIPA DC-008, 4.6.4, from memory).
    #[test]
    fn a_phones_photograph_comes_out_upright() {
        let jpeg = written(&halves(80, 40).into(), ImageFormat::Jpeg);
        for (orientation, red_is) in [
            (1, "left"),
            (2, "right"),
            (3, "right"),
            (4, "left"),
            (5, "top"),
            (6, "top"),
            (7, "bottom"),
            (8, "bottom"),
        ] {
            let made = ready(&as_a_phone_has_it(&jpeg, orientation, b"")).unwrap();
            let upright = image::load_from_memory(&made.jpeg).unwrap().into_rgb8();
            let (wide, tall) = upright.dimensions();
            let across = matches!(red_is, "left" | "right");
            assert_eq!((wide, tall), if across { (80, 40) } else { (40, 80) });
            let (red, blue) = match red_is {
                "left" => ((5, tall / 2), (wide - 6, tall / 2)),
                "right" => ((wide - 6, tall / 2), (5, tall / 2)),
                "top" => ((wide / 2, 5), (wide / 2, tall - 6)),
                _ => ((wide / 2, tall - 6), (wide / 2, 5)),
            };
            assert!(
                looks_like(*upright.get_pixel(red.0, red.1), RED)
                    && looks_like(*upright.get_pixel(blue.0, blue.1), BLUE),
                "{orientation}"
            );
            // It needs no turning any more, also where a reader ignores Exif.
            assert_eq!(ready(&made.jpeg).unwrap(), made);
        }
    }

    #[test]
    fn twelve_megapixels_come_out_small_and_say_nothing_of_the_place() {
        let large = halves(4032, 3024);
        let place = b"54 degrees north";
        let jpeg = as_a_phone_has_it(&written(&large.into(), ImageFormat::Jpeg), 6, place);
        assert!(jpeg.windows(place.len()).any(|part| part == place));
        let made = ready(&jpeg).unwrap();
        assert_eq!((made.width, made.height), (960, 1280));
        assert_eq!(dimensions(&made.jpeg), Some((960, 1280)));
        assert!(made.jpeg.len() <= LARGEST_KEPT, "{}", made.jpeg.len());
        assert!(!made.jpeg.windows(place.len()).any(|part| part == place));
    }

    /// Noise is the hardest to keep small.
    #[test]
    fn what_is_kept_has_an_end_whatever_it_shows() {
        let mut state = 1_u32;
        let noise = RgbImage::from_fn(1280, 1280, |_, _| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            image::Rgb([(state >> 24) as u8, (state >> 16) as u8, (state >> 8) as u8])
        });
        let png = written(&noise.into(), ImageFormat::Png);
        assert!(png.len() > 2 * LARGEST_KEPT);
        let made = ready(&png).unwrap();
        assert!(made.jpeg.len() <= LARGEST_KEPT, "{}", made.jpeg.len());
        assert_eq!(ready(&made.jpeg).unwrap(), made);
    }

    #[test]
    fn a_small_picture_stays_small_and_the_transparent_is_white() {
        let clear = image::RgbaImage::from_pixel(24, 16, image::Rgba([0, 0, 0, 0]));
        let made = ready(&written(&clear.into(), ImageFormat::Png)).unwrap();
        assert_eq!((made.width, made.height), (24, 16));
        let seen = image::load_from_memory(&made.jpeg).unwrap().into_rgb8();
        assert!(looks_like(*seen.get_pixel(8, 8), [255, 255, 255]));
    }

    #[test]
    fn what_is_no_picture_is_refused_by_what_it_is() {
        let jpeg = written(&halves(400, 300).into(), ImageFormat::Jpeg);
        let png = written(&halves(400, 300).into(), ImageFormat::Png);
        let heic = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic";
        // A header of 60000 by 60000 pixels with a body of a few: IHDR begins at the 13th byte
        // of a PNG, its CRC-32 follows 17 bytes on (ISO/IEC 15948, 5.3, 11.2.2 and annex D, from
        // memory).
        let bomb = {
            let mut bomb = png.clone();
            bomb[16..24].copy_from_slice(&[0, 0, 0xea, 0x60, 0, 0, 0xea, 0x60]);
            let crc = bomb[12..29].iter().fold(u32::MAX, |crc, byte| {
                (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
                    (crc >> 1) ^ (0xedb8_8320 * (crc & 1))
                })
            });
            bomb[29..33].copy_from_slice(&(!crc).to_be_bytes());
            bomb
        };
        for (bytes, why) in [
            (&b""[..], "is an empty file"),
            (b"name = \"tideline loaf\"\n", "is no picture"),
            (b"GIF89a\x01\0\x01\0\0\0\0;", "neither PNG nor JPEG"),
            (heic, "HEIC"),
            (&jpeg[..jpeg.len() / 2], "is cut off"),
            (&jpeg[..20], "JPEG"),
            (&png[..png.len() / 2], "cannot be read"),
            (&bomb, "60000 x 60000 pixels"),
        ] {
            let error = ready(bytes).unwrap_err().to_string();
            assert!(error.contains(why), "{why}: {error}");
        }
        assert!(ready(&vec![0xff; LARGEST_FILE as usize + 1]).is_err());
    }
}

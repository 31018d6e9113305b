//! Paints on the CPU what egui cuts into triangles, so that a picture needs
//! neither a display nor a graphics driver, and is the same on every machine.
//!
//! Coverage follows the rules that graphics hardware keeps: a pixel belongs to a
//! triangle when its centre does, and on an edge by the top-left rule, so that
//! no pixel on a shared edge is painted twice. Colours are blended as egui's own
//! renderers blend them: premultiplied, in sRGB.

use eframe::egui::epaint::{
    ClippedPrimitive, ColorImage, ImageData, ImageDelta, Mesh, Primitive, Vertex,
};
use eframe::egui::{
    Color32, Context, FullOutput, Rect, TextureFilter, TextureId, TextureOptions, TextureWrapMode,
    TexturesDelta,
};
use image::{Rgba, RgbaImage};
use std::collections::HashMap;

/// The steps that a pixel's side is divided into. Graphics hardware takes 256.
const STEPS: f32 = 256.0;

/// The textures seen so far, and the paint that goes with them.
#[derive(Debug, Default)]
pub struct Painter {
    textures: HashMap<TextureId, Texture>,
}

#[derive(Debug)]
struct Texture {
    image: ColorImage,
    options: TextureOptions,
}

impl Painter {
    /// Takes in the textures that a frame brings, and leaves `delta` empty.
    pub fn take_textures(&mut self, delta: &mut TexturesDelta) {
        for (id, changes) in delta.set.drain() {
            for change in changes {
                self.take_texture(id, change);
            }
        }
        for id in delta.free.drain() {
            self.textures.remove(&id);
        }
    }

    fn take_texture(&mut self, id: TextureId, change: ImageDelta) {
        let ImageData::Color(image) = change.image;
        let Some([left, top]) = change.pos else {
            let texture = Texture {
                image: (*image).clone(),
                options: change.options,
            };
            self.textures.insert(id, texture);
            return;
        };
        let Some(texture) = self.textures.get_mut(&id) else {
            return;
        };
        let [width, height] = image.size;
        for (row, pixels) in image.pixels.chunks_exact(width.max(1)).enumerate() {
            let from = (top + row) * texture.image.size[0] + left;
            if let Some(into) = texture.image.pixels.get_mut(from..from + width) {
                into.copy_from_slice(pixels);
            }
            debug_assert!(row < height);
        }
        texture.options = change.options;
    }

    /// Paints a frame whose textures were taken in before.
    ///
    /// # Errors
    /// In words, where the frame holds something that only a graphics driver
    /// can paint.
    pub fn paint(&self, ctx: &Context, output: &FullOutput) -> Result<RgbaImage, String> {
        let scale = ctx.pixels_per_point();
        let size = ctx.content_rect().size() * scale;
        let mut canvas = RgbaImage::new(size.x.round() as u32, size.y.round() as u32);
        for ClippedPrimitive {
            clip_rect,
            primitive,
        } in ctx.tessellate(output.shapes.clone(), scale)
        {
            let Primitive::Mesh(mesh) = primitive else {
                return Err("a part of the screen is painted by the graphics driver".to_owned());
            };
            let Some(texture) = self.textures.get(&mesh.texture_id) else {
                return Err(format!("the texture {:?} is missing", mesh.texture_id));
            };
            let clip = Clip::of(clip_rect, scale, &canvas);
            paint_mesh(&mut canvas, &mesh, texture, clip, scale);
        }
        Ok(canvas)
    }
}

/// The pixels that may be painted: from the first to before the last.
#[derive(Clone, Copy)]
struct Clip {
    from: [i64; 2],
    to: [i64; 2],
}

impl Clip {
    fn of(rect: Rect, scale: f32, canvas: &RgbaImage) -> Self {
        let size = [i64::from(canvas.width()), i64::from(canvas.height())];
        let pixel = |along: f32, most: i64| ((along * scale).round() as i64).clamp(0, most);
        Self {
            from: [pixel(rect.min.x, size[0]), pixel(rect.min.y, size[1])],
            to: [pixel(rect.max.x, size[0]), pixel(rect.max.y, size[1])],
        }
    }
}

fn paint_mesh(canvas: &mut RgbaImage, mesh: &Mesh, texture: &Texture, clip: Clip, scale: f32) {
    for corners in mesh.indices.chunks_exact(3) {
        let corner = |nth: usize| {
            corners
                .get(nth)
                .and_then(|index| mesh.vertices.get(*index as usize))
        };
        if let (Some(a), Some(b), Some(c)) = (corner(0), corner(1), corner(2)) {
            paint_triangle(canvas, [a, b, c], texture, clip, scale);
        }
    }
}

/// A place in steps of a pixel.
type Place = [i64; 2];

/// Twice the area of a triangle: positive where its corners run clockwise on
/// the screen.
const fn area(a: Place, b: Place, c: Place) -> i64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

/// Whether an edge of a clockwise triangle owns the centres that lie on it.
const fn top_or_left(from: Place, to: Place) -> bool {
    to[1] < from[1] || (to[1] == from[1] && to[0] > from[0])
}

fn paint_triangle(
    canvas: &mut RgbaImage,
    [a, b, c]: [&Vertex; 3],
    texture: &Texture,
    clip: Clip,
    scale: f32,
) {
    let place = |vertex: &Vertex| {
        let step = |along: f32| (along * scale * STEPS).round() as i64;
        [step(vertex.pos.x), step(vertex.pos.y)]
    };
    let [at_a, mut at_b, mut at_c] = [place(a), place(b), place(c)];
    let (mut b, mut c) = (b, c);
    let mut whole = area(at_a, at_b, at_c);
    if whole == 0 {
        return;
    }
    if whole < 0 {
        (b, c, at_b, at_c) = (c, b, at_c, at_b);
        whole = -whole;
    }
    let steps = STEPS as i64;
    let half = steps / 2;
    // The pixels whose centres may lie within.
    let range = |axis: usize| {
        let ends = [at_a[axis], at_b[axis], at_c[axis]];
        let least = ends.into_iter().fold(i64::MAX, i64::min);
        let most = ends.into_iter().fold(i64::MIN, i64::max);
        let from = (least - half).div_euclid(steps).max(clip.from[axis]);
        let to = ((most - half).div_euclid(steps) + 1).min(clip.to[axis]);
        from..to
    };
    let (across, down) = (range(0), range(1));
    if across.is_empty() {
        return;
    }
    let plain = a.color == b.color && b.color == c.color && a.uv == b.uv && b.uv == c.uv;
    let fill = plain.then(|| shade(a.color.to_array().map(f32::from), texture, a.uv.x, a.uv.y));

    // Each edge, with what one pixel to the right adds to its area.
    let edges = [(at_b, at_c), (at_c, at_a), (at_a, at_b)];
    let inside_from = edges.map(|(from, to)| i64::from(!top_or_left(from, to)));
    let right = edges.map(|(from, to)| -(to[1] - from[1]) * steps);
    let [red_a, red_b, red_c] = [a, b, c].map(|vertex| vertex.color.to_array().map(f32::from));
    let share = 1.0 / whole as f32;
    for y in down {
        let centre = [across.start * steps + half, y * steps + half];
        let mut areas = edges.map(|(from, to)| area(from, to, centre));
        for x in across.clone() {
            let [of_a, of_b, of_c] = areas;
            for (area, more) in areas.iter_mut().zip(right) {
                *area += more;
            }
            let inside = [of_a, of_b, of_c];
            if inside
                .iter()
                .zip(inside_from)
                .any(|(area, from)| *area < from)
            {
                continue;
            }
            let source = fill.unwrap_or_else(|| {
                let [of_a, of_b, of_c] = inside.map(|area| area as f32 * share);
                let mix = |a: f32, b: f32, c: f32| a * of_a + b * of_b + c * of_c;
                let mut colour = [0.0; 4];
                for (nth, part) in colour.iter_mut().enumerate() {
                    *part = mix(red_a[nth], red_b[nth], red_c[nth]);
                }
                let [u, v] = [mix(a.uv.x, b.uv.x, c.uv.x), mix(a.uv.y, b.uv.y, c.uv.y)];
                shade(colour, texture, u, v)
            });
            blend(canvas.get_pixel_mut(x as u32, y as u32), source);
        }
    }
}

/// A colour as it is seen through a place of the texture; each part up to 255.
fn shade(colour: [f32; 4], texture: &Texture, u: f32, v: f32) -> [f32; 4] {
    let seen = sample(texture, u, v);
    let mut shaded = colour;
    for (part, seen) in shaded.iter_mut().zip(seen) {
        *part *= seen / 255.0;
    }
    shaded
}

fn blend(pixel: &mut Rgba<u8>, source: [f32; 4]) {
    let through = 1.0 - source[3] / 255.0;
    for (part, source) in pixel.0.iter_mut().zip(source) {
        *part = (source + f32::from(*part) * through).round() as u8;
    }
}

fn sample(texture: &Texture, u: f32, v: f32) -> [f32; 4] {
    let [width, height] = texture.image.size;
    let texel = |x: i64, y: i64| {
        let wrap = texture.options.wrap_mode;
        let at = wrapped(y, height, wrap) * width + wrapped(x, width, wrap);
        let colour = texture.image.pixels.get(at).copied();
        colour
            .unwrap_or(Color32::TRANSPARENT)
            .to_array()
            .map(f32::from)
    };
    let (x, y) = (u * width as f32, v * height as f32);
    if texture.options.magnification == TextureFilter::Nearest {
        return texel(x.floor() as i64, y.floor() as i64);
    }
    let (x, y) = (x - 0.5, y - 0.5);
    let (left, top) = (x.floor(), y.floor());
    let (right_share, below_share) = (x - left, y - top);
    let (left, top) = (left as i64, top as i64);
    let [top_left, top_right] = [texel(left, top), texel(left + 1, top)];
    let [below_left, below_right] = [texel(left, top + 1), texel(left + 1, top + 1)];
    let between = |a: f32, b: f32, share: f32| a + (b - a) * share;
    let mut seen = [0.0; 4];
    for (nth, part) in seen.iter_mut().enumerate() {
        let above = between(top_left[nth], top_right[nth], right_share);
        let below = between(below_left[nth], below_right[nth], right_share);
        *part = between(above, below, below_share);
    }
    seen
}

/// Where a texel outside the texture is taken from.
fn wrapped(at: i64, size: usize, mode: TextureWrapMode) -> usize {
    let size = (size as i64).max(1);
    let within = match mode {
        TextureWrapMode::ClampToEdge => at.clamp(0, size - 1),
        TextureWrapMode::Repeat => at.rem_euclid(size),
        TextureWrapMode::MirroredRepeat => {
            let twice = at.rem_euclid(2 * size);
            twice.min(2 * size - 1 - twice)
        }
    };
    within as usize
}

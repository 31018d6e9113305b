//! Choosing the language and what is heard, by touch.

use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::sound::{Cue, SoundChoice, Volume};
use crate::state::{Screen, State};
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::{Language, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Ui};
use evenhand_protocol::Verdict;

/// Shows the screen in `place`.
pub fn show(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = state.language;
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let title = say!(language, "settings-title");
    let (foot, leave) = super::titled(ui, &mut rest, &title, Screen::Scale);
    intents.extend(leave);
    rest.top(scale.u(8.0));
    if let Some(kept) = foot.get(1)
        && BigButton::new(&say!(language, "kept-open"))
            .key(Key::K)
            .show(ui, *kept)
    {
        intents.push(Intent::Go(Screen::Kept));
    }
    let tiles = layout::columns(rest.top(scale.u(120.0)), Language::ALL.len(), gap);
    for (place, offered) in tiles.into_iter().zip(Language::ALL) {
        let weight = if offered == language {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        // Each by its own name: whoever looks for it reads that one.
        if BigButton::new(offered.own_name())
            .weight(weight)
            .show(ui, place)
        {
            intents.push(Intent::Speak(offered));
        }
    }
    rest.top(scale.u(4.0));
    text::label(
        ui,
        rest.top(scale.u(40.0)),
        &say!(language, "settings-follows"),
        &text::Style::new(scale.plain(26.0), theme::INK, Align2::LEFT_CENTER),
    );
    intents.extend(sound(ui, rest.0, state));
    intents
}

/// What is heard: how loud, taps, speech, and each tone to be tried.
fn sound(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let language = state.language;
    let view = state.sound;
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let heading = if view.plays {
        say!(language, "sound-title")
    } else {
        say!(language, "sound-no-player")
    };
    text::label(
        ui,
        rest.top(scale.u(54.0)),
        &heading,
        &text::Style::new(scale.heavy(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    let tall = scale.u(78.0);
    let volumes = [
        (say!(language, "sound-off"), Volume::Off),
        (say!(language, "sound-low"), Volume::Low),
        (say!(language, "sound-middle"), Volume::Middle),
        (say!(language, "sound-loud"), Volume::Loud),
    ];
    for (place, (words, volume)) in layout::columns(rest.top(tall), 4, gap)
        .into_iter()
        .zip(volumes)
    {
        let chosen = chosen(view.choice.volume == volume);
        let button = BigButton::new(&words).weight(chosen).enabled(view.plays);
        if button.show(ui, place) {
            intents.push(Intent::Sound(SoundChoice {
                volume,
                ..view.choice
            }));
        }
    }
    rest.top(gap);
    let also = layout::columns(rest.top(tall), 2, gap);
    let (taps, spoken) = (say!(language, "sound-taps"), say!(language, "sound-spoken"));
    let no_speaker = say!(language, "sound-no-speaker");
    let with_taps = SoundChoice {
        taps: !view.choice.taps,
        ..view.choice
    };
    let with_speech = SoundChoice {
        spoken: !view.choice.spoken,
        ..view.choice
    };
    let taps = BigButton::new(&taps)
        .weight(chosen(view.choice.taps))
        .enabled(view.plays);
    let mut spoken = BigButton::new(&spoken)
        .weight(chosen(view.choice.spoken))
        .enabled(view.speaks);
    if !view.speaks {
        spoken = spoken.detail(&no_speaker);
    }
    for (place, (button, choice)) in also
        .into_iter()
        .zip([(taps, with_taps), (spoken, with_speech)])
    {
        if button.show(ui, place) {
            intents.push(Intent::Sound(choice));
        }
    }
    rest.top(gap);
    let heard = view.plays && view.choice.volume != Volume::Off;
    let tones = layout::columns(rest.top(tall), Cue::ALL.len(), gap);
    for (place, cue) in tones.into_iter().zip(Cue::ALL) {
        let name = match cue {
            Cue::Short => figures::verdict(Verdict::Short, language),
            Cue::On => figures::verdict(Verdict::On, language),
            Cue::Heavy => figures::verdict(Verdict::Heavy, language),
            Cue::Captured(_) => say!(language, "sound-captured"),
            Cue::Refused => say!(language, "sound-refused"),
            Cue::Tap(_) => continue,
        };
        let words = say!(language, "sound-try", tone = name.as_ref());
        if BigButton::new(&name)
            .spoken(&words)
            .enabled(heard)
            .show(ui, place)
        {
            intents.push(Intent::TryTone(cue));
        }
    }
    intents
}

const fn chosen(yes: bool) -> Weight {
    if yes { Weight::Chosen } else { Weight::Plain }
}

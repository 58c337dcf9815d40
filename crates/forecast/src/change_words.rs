//! What moving a harp to another pitch asks for, in the words of three languages. German and French are from memory.

use pitch::Tongue;

use crate::change::{Change, ChangeCaution, MOST_SHARE, PassesBecause};
use crate::fall_back::{ENOUGH, FellBack};

/// Sentences about a change of pitch; days and names of strings are the screen's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChangeWords {
    /// From where to where, and what that asks of every string.
    pub headline: String,
    /// That a technician is to be asked first.
    pub ask: Option<String>,
    /// What the strings pull before and after.
    pub load: String,
    /// How many passes, and why.
    pub passes: String,
    /// In what order a pass goes.
    pub order: String,
    /// How far past, or why not; a sentence for each kind of string. None where the harp goes down by little.
    pub past: Vec<String>,
    /// When to begin, and what that rests on.
    pub start: String,
    /// That it is late.
    pub late: Option<String>,
    /// What can hurt or break.
    pub cautions: Vec<String>,
}

/// One sentence in the three languages.
type Said = [&'static str; 3];

fn of(tongue: Tongue, said: Said) -> String {
    let [english, german, french] = said;
    match tongue {
        Tongue::English => english,
        Tongue::German => german,
        Tongue::French => french,
    }
    .to_owned()
}

impl Change {
    /// All that is said of it.
    pub fn words(&self, tongue: Tongue) -> ChangeWords {
        let past = match self.cents > 0.0 {
            true => [(true, self.wires), (false, self.others)]
                .into_iter()
                .filter_map(|(wires, fell)| Some(self.past(tongue, wires, fell?)))
                .collect(),
            false => vec![of(tongue, NO_PAST)],
        };
        ChangeWords {
            headline: self.headline(tongue),
            ask: self.ask_technician.then(|| {
                of(tongue, ASK).replace("{n}", &tongue.number(self.above_usual.above_cents, 0))
            }),
            load: self.load_words(tongue),
            passes: self.passes_words(tongue),
            order: of(tongue, ORDER),
            past,
            start: self.start_words(tongue),
            late: self.late.then(|| of(tongue, LATE)),
            cautions: self
                .cautions
                .iter()
                .map(|caution| of(tongue, caution_said(*caution)))
                .collect(),
        }
    }

    fn headline(&self, tongue: Tongue) -> String {
        let pull = 100.0 * ((self.to_a4_hz / self.from_a4_hz).powi(2) - 1.0);
        let said = match self.cents {
            cents if cents.abs() < 0.05 => SAME,
            cents if cents > 0.0 => UP,
            _ => DOWN,
        };
        of(tongue, said)
            .replace("{from}", &tongue.number(self.from_a4_hz, 1))
            .replace("{to}", &tongue.number(self.to_a4_hz, 1))
            .replace("{usual}", &tongue.number(self.usual_a4_hz, 1))
            .replace("{cents}", &tongue.number(self.cents.abs(), 1))
            .replace("{pull}", &tongue.number(pull.abs(), 2))
    }

    fn load_words(&self, tongue: Tongue) -> String {
        let load = self.load;
        let said = match (load.strings_known, load.strings_unknown) {
            (0, _) => LOAD_UNKNOWN,
            (_, 0) => LOAD,
            _ => LOAD_OF_SOME,
        };
        of(tongue, said)
            .replace("{before}", &tongue.number(load.before_n, 0))
            .replace("{after}", &tongue.number(load.after_n, 0))
            .replace("{known}", &load.strings_known.to_string())
            .replace("{unknown}", &load.strings_unknown.to_string())
    }

    fn passes_words(&self, tongue: Tongue) -> String {
        let said = match self.because {
            PassesBecause::OneRound => ONE_ROUND,
            PassesBecause::Down => DOWN_TWICE,
            PassesBecause::CommonPractice => USUAL_PASSES,
            PassesBecause::Measured { .. } => MEASURED_PASSES,
        };
        let at_most = match self.because {
            PassesBecause::Measured { at_most } => 100.0 * at_most,
            _ => 0.0,
        };
        of(tongue, said)
            .replace("{n}", &self.passes.len().to_string())
            .replace("{percent}", &tongue.number(at_most, 0))
    }

    fn past(&self, tongue: Tongue, wires: bool, fell: FellBack) -> String {
        let kind = of(tongue, if wires { WIRES } else { OTHERS });
        let Some(share) = fell.share else {
            return of(tongue, NOT_MEASURED)
                .replace("{kind}", &kind)
                .replace("{times}", &fell.times.to_string())
                .replace("{stretches}", &fell.stretches.to_string())
                .replace("{enough}", &ENOUGH.1.to_string())
                .replace("{rounds}", &ENOUGH.0.to_string());
        };
        let certain = share.share - share.u95 > 0.0;
        let said = match (certain, self.ask_technician) {
            _ if share.share > MOST_SHARE => TOO_MUCH,
            (true, false) => FELL,
            (true, true) => FELL_BUT_ASK,
            (false, _) => LOST,
        };
        of(tongue, said)
            .replace("{kind}", &kind)
            .replace("{percent}", &tongue.number(100.0 * share.share, 0))
            .replace("{u95}", &tongue.number(100.0 * share.u95, 0))
            .replace("{times}", &fell.times.to_string())
    }

    fn start_words(&self, tongue: Tongue) -> String {
        let said = match (self.passes.len(), self.days_are_measured) {
            (..=1, _) => START_ONE,
            (_, true) => START_MEASURED,
            (_, false) => START_USUAL,
        };
        of(tongue, said).replace("{days}", &tongue.number(self.days_between, 1))
    }
}

fn caution_said(caution: ChangeCaution) -> Said {
    match caution {
        ChangeCaution::AskTechnician => [
            "Ask your harp technician before anything is turned.",
            "Vor jedem Drehen Harfentechnikerin oder Harfentechniker fragen.",
            "Demandez à votre technicien de harpe avant de tourner quoi que ce soit.",
        ],
        ChangeCaution::StringsMayBreak => [
            "Strings may break on the way up: old ones, worn ones, those that never stood so high. Have spares.",
            "Saiten können auf dem Weg nach oben reißen: alte, abgenutzte, solche, die nie so hoch standen. Ersatz bereithalten.",
            "Des cordes peuvent casser en montant : les vieilles, les usées, celles qui n'ont jamais été si haut. Ayez-en de rechange.",
        ],
        ChangeCaution::Eyes => [
            "Eyes and face away from the string that is turned, out of the plane of the strings; glasses on.",
            "Augen und Gesicht weg von der Saite, die gedreht wird, und aus der Ebene der Saiten; Brille tragen.",
            "Les yeux et le visage loin de la corde que l'on tourne, hors du plan des cordes ; portez des lunettes.",
        ],
        ChangeCaution::SmallTurns => [
            "Pedals up or levers off. Small turns, a pluck after each; the key on the pin of the string that you pluck.",
            "Pedale oben oder Klappen offen. Kleine Drehungen, nach jeder zupfen; der Schlüssel auf dem Wirbel der gezupften Saite.",
            "Pédales en haut ou leviers baissés. De petits tours, en pinçant après chacun ; la clé sur la cheville de la corde que vous pincez.",
        ],
        ChangeCaution::Body => [
            "The harp upright on its feet, you on the floor or on a low step that does not move. If wrist or shoulder hurts, stop.",
            "Die Harfe steht aufrecht, Sie auf dem Boden oder einer niedrigen, festen Stufe. Schmerzt Handgelenk oder Schulter: aufhören.",
            "La harpe droite sur ses pieds, vous au sol ou sur une marche basse qui ne bouge pas. Si le poignet ou l'épaule fait mal, arrêtez.",
        ],
        ChangeCaution::StopAndAsk => [
            "If anything creaks, cracks, opens or lifts: stop, and ask your harp technician.",
            "Wenn etwas knackt, reißt, sich öffnet oder hebt: aufhören und Harfentechnikerin oder Harfentechniker fragen.",
            "Si quelque chose craque, se fend, s'ouvre ou se soulève : arrêtez et demandez à votre technicien de harpe.",
        ],
    }
}

const ASK: Said = [
    "That is {n} cents above this harp's usual pitch: ask your technician first. What follows is only for when the technician agrees.",
    "Das sind {n} Cent über der gewohnten Tonhöhe dieser Harfe: zuerst Technikerin oder Techniker fragen. Was folgt, gilt nur mit deren Zustimmung.",
    "C'est {n} cents au-dessus du diapason habituel de cette harpe : demandez d'abord à votre technicien. Ce qui suit ne vaut qu'avec son accord.",
];
const SAME: Said = [
    "The harp stands at {to} Hz already.",
    "Die Harfe steht schon auf {to} Hz.",
    "La harpe est déjà à {to} Hz.",
];
const UP: Said = [
    "From {from} to {to} Hz: {cents} cents up, {pull} % more pull on every string. Usually {usual} Hz.",
    "Von {from} auf {to} Hz: {cents} Cent hinauf, {pull} % mehr Zug an jeder Saite. Gewohnt: {usual} Hz.",
    "De {from} à {to} Hz : {cents} cents vers le haut, {pull} % de traction en plus sur chaque corde. D'habitude {usual} Hz.",
];
const DOWN: Said = [
    "From {from} to {to} Hz: {cents} cents down, {pull} % less pull on every string. Usually {usual} Hz.",
    "Von {from} auf {to} Hz: {cents} Cent hinunter, {pull} % weniger Zug an jeder Saite. Gewohnt: {usual} Hz.",
    "De {from} à {to} Hz : {cents} cents vers le bas, {pull} % de traction en moins sur chaque corde. D'habitude {usual} Hz.",
];
const LOAD: Said = [
    "All strings pull {before} N together before, {after} N after, from your figures.",
    "Alle Saiten ziehen zusammen vorher {before} N, nachher {after} N, nach Ihren Angaben.",
    "Toutes les cordes tirent ensemble {before} N avant, {after} N après, d'après vos chiffres.",
];
const LOAD_OF_SOME: Said = [
    "Strings whose figures you gave: {known} pull {before} N together before, {after} N after. Of {unknown} it is not known.",
    "Saiten mit Ihren Angaben: {known} ziehen zusammen vorher {before} N, nachher {after} N. Von {unknown} ist es nicht bekannt.",
    "Cordes dont vous avez donné les chiffres : {known} tirent ensemble {before} N avant, {after} N après. De {unknown} on ne le sait pas.",
];
const LOAD_UNKNOWN: Said = [
    "What the strings pull is not known: no string of this harp has its length and its mass or gauge written down.",
    "Was die Saiten ziehen, ist nicht bekannt: von keiner Saite dieser Harfe stehen Länge und Masse oder Stärke da.",
    "On ne sait pas ce que tirent les cordes : d'aucune corde de cette harpe la longueur et la masse ou le calibre ne sont notés.",
];
const ONE_ROUND: Said = [
    "One pass: it is no more than a round may leave.",
    "Ein Durchgang: es ist nicht mehr, als eine Runde lassen darf.",
    "Un passage : ce n'est pas plus que ce qu'un tour peut laisser.",
];
const DOWN_TWICE: Said = [
    "Two passes: strings that come down let the others come up, so the second finds them moved (common practice, no source).",
    "Zwei Durchgänge: Saiten, die herunterkommen, lassen die anderen steigen; der zweite findet sie verschoben (übliche Praxis, keine Quelle).",
    "Deux passages : les cordes qui descendent laissent monter les autres ; le second les trouve déplacées (usage courant, sans source).",
];
const USUAL_PASSES: Said = [
    "Three passes, rough, closer, fine: each string that comes up lets others down (two or three over several days are common practice, no source).",
    "Drei Durchgänge, grob, näher, fein: jede Saite, die steigt, lässt andere sinken (zwei oder drei über mehrere Tage sind üblich, keine Quelle).",
    "Trois passages, gros, plus près, fin : chaque corde qui monte en laisse descendre d'autres (deux ou trois sur plusieurs jours sont d'usage, sans source).",
];
const MEASURED_PASSES: Said = [
    "{n} passes: strings of this harp fell back by at most {percent} % of what they were turned up, and the last pass looks.",
    "{n} Durchgänge: Saiten dieser Harfe gaben höchstens {percent} % des Hinaufdrehens nach, und der letzte sieht nach.",
    "{n} passages : les cordes de cette harpe sont revenues d'au plus {percent} % de leur montée, et le dernier vérifie.",
];
const ORDER: Said = [
    "Each pass from the middle to the ends, below and above by turns, so that the pull grows evenly; never one end alone.",
    "Jeder Durchgang von der Mitte zu den Enden, unten und oben im Wechsel, damit der Zug gleichmäßig wächst; nie ein Ende allein.",
    "Chaque passage va du milieu vers les bouts, en bas et en haut tour à tour, pour que la traction croisse également ; jamais un bout seul.",
];
const NO_PAST: Said = [
    "Not past its place: a harp that goes down needs no overshoot. End each string from below.",
    "Nicht über das Ziel hinaus: hinunter ist das nicht nötig. Jede Saite zuletzt von unten kommen lassen.",
    "Sans dépasser : en descendant, ce n'est pas nécessaire. Finissez chaque corde en montant.",
];
const WIRES: Said = ["Wires", "Drahtsaiten", "Cordes filées"];
const OTHERS: Said = ["Gut and nylon", "Darm und Nylon", "Boyau et nylon"];
const NOT_MEASURED: Said = [
    "{kind}: what they fall back by is not yet measured on this harp (strings turned up by about so much and found again: {times} of {enough}, in {stretches} of {rounds} stretches). No overshoot.",
    "{kind}: was sie nachgeben, ist an dieser Harfe noch nicht gemessen (um etwa so viel hinaufgedrehte und wiedergefundene Saiten: {times} von {enough}, in {stretches} von {rounds} Zeiträumen). Nicht über das Ziel hinaus.",
    "{kind} : ce dont elles reviennent n'est pas encore mesuré sur cette harpe (cordes montées d'à peu près autant et retrouvées : {times} sur {enough}, en {stretches} sur {rounds} intervalles). Sans dépasser.",
];
const FELL: Said = [
    "{kind}: on this harp they fell back by {percent} % (±{u95}) of what they were turned up, {times} times. Past their place by that in the first pass.",
    "{kind}: an dieser Harfe gaben sie {percent} % (±{u95}) des Hinaufdrehens nach, {times}-mal. Im ersten Durchgang um so viel über das Ziel.",
    "{kind} : sur cette harpe elles sont revenues de {percent} % (±{u95}) de leur montée, {times} fois. Dépassez d'autant au premier passage.",
];
const FELL_BUT_ASK: Said = [
    "{kind}: on this harp they fell back by {percent} % (±{u95}) of what they were turned up, {times} times. So far above the usual pitch nothing is brought past its place.",
    "{kind}: an dieser Harfe gaben sie {percent} % (±{u95}) des Hinaufdrehens nach, {times}-mal. So weit über der gewohnten Tonhöhe wird nichts über das Ziel gebracht.",
    "{kind} : sur cette harpe elles sont revenues de {percent} % (±{u95}) de leur montée, {times} fois. Si loin au-dessus du diapason habituel, rien ne dépasse sa place.",
];
const TOO_MUCH: Said = [
    "{kind}: after being turned up they came down again by {percent} % (±{u95}) of it, {times} times. That is more than falling back: the air, a pin or a knot may move them. No overshoot; look for the cause first, with your technician if need be.",
    "{kind}: nach dem Hinaufdrehen kamen sie um {percent} % (±{u95}) davon wieder herunter, {times}-mal. Das ist mehr als Nachgeben: Luft, ein Wirbel oder ein Knoten kann sie bewegen. Nicht über das Ziel hinaus; erst die Ursache suchen, wenn nötig mit Technikerin oder Techniker.",
    "{kind} : après avoir été montées elles sont redescendues de {percent} % (±{u95}), {times} fois. C'est plus qu'un simple retour : l'air, une cheville ou un nœud peut les bouger. Sans dépasser ; cherchez d'abord la cause, avec votre technicien au besoin.",
];
const LOST: Said = [
    "{kind}: what they fell back by on this harp, {percent} % (±{u95}) of {times} times, is no more than what they stray. No overshoot.",
    "{kind}: was sie an dieser Harfe nachgaben, {percent} % (±{u95}) aus {times} Malen, ist nicht mehr, als sie streuen. Nicht über das Ziel hinaus.",
    "{kind} : ce dont elles sont revenues sur cette harpe, {percent} % (±{u95}) sur {times} fois, n'est pas plus que leur dispersion. Sans dépasser.",
];
const START_ONE: Said = [
    "The round before you play is enough.",
    "Die Runde vor dem Spielen genügt.",
    "Le tour avant de jouer suffit.",
];
const START_MEASURED: Said = [
    "{days} days between two passes: after that little more came on this harp.",
    "{days} Tage zwischen zwei Durchgängen: danach kam an dieser Harfe wenig nach.",
    "{days} jours entre deux passages : ensuite peu a encore bougé sur cette harpe.",
];
const START_USUAL: Said = [
    "{days} days between two passes: common practice, no source; how soon this harp settles is not yet measured.",
    "{days} Tage zwischen zwei Durchgängen: übliche Praxis, keine Quelle; wie bald diese Harfe sich setzt, ist noch nicht gemessen.",
    "{days} jours entre deux passages : usage courant, sans source ; quand cette harpe se pose n'est pas encore mesuré.",
];
const LATE: Said = [
    "That day is past. Begin now, do not hurry a pass, and expect to tune again before you play and in the interval.",
    "Dieser Tag ist vorbei. Jetzt beginnen, keinen Durchgang beeilen, und damit rechnen, vor dem Spielen und in der Pause nachzustimmen.",
    "Ce jour est passé. Commencez maintenant, sans presser un passage, et attendez-vous à réaccorder avant de jouer et à l'entracte.",
];

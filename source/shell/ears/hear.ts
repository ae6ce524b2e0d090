import {centsBetween} from '../../music/pitch.ts';
import type {StringNumber} from '../../music/string-number.ts';
import type {HeardTone} from '../../listening/estimate-tone.ts';
import type {HeardPluck} from '../../listening/listening.ts';
import type {ListeningView} from '../../listening/listening-view.ts';
import {type Candidate, type StringVerdict, whichString} from '../../listening/which-string.ts';
import {emptyEntry} from '../../terminal/entry.ts';
import type {Ports} from '../ports.ts';
import {isOnlyString, type Seen, seenBy} from '../seen.ts';
import {type Ear, type Sitting, settled, type Wizard} from '../state.ts';
import {refused, said, storeDeeds} from '../store-deeds.ts';
import {type AskedPitch, askedPitch, semitonesUp} from './asked-pitch.ts';
import {aimWords, hertzWords, sdWords, wayTo, words} from './ear-words.ts';
import type {EarEvent} from './ears.ts';
import {placesOf} from './places.ts';
import {askHeard} from './heard-question.ts';
import {centsWords, type HeardReading, markHeard, harmonicInOpen, readingOf, tunerWords} from './heard-reading.ts';

/**
 * What the ears tell, as an input beside keys and pastes. A sure reading of
 * what was asked for is stored like a typed one; a doubtful or surprising one
 * becomes a question; what cannot be a reading now is only said.
 */
export function hear(wizard: Wizard, event: EarEvent, ports: Ports): Wizard {
	if (wizard.screen !== 'sitting' || !wizard.ear) return wizard;
	const {ear} = wizard;
	switch (event.kind) {
		case 'open':
			return {...wizard, ear: {...ear, from: event.from}};
		case 'view':
			return viewed(wizard, ear, event.view);
		case 'pluck':
			return plucked(wizard, event.pluck, ports);
		case 'now':
			return event.tone ? toneHeard(wizard, event.tone, 'now', ports) : noted(wizard, words.nothingSounds);
		case 'trouble':
			return withoutEar(wizard, event.trouble.said, 'attention');
		case 'end':
			return withoutEar(wizard, words.ended(event.from), 'quiet');
	}
}

/** Starts listening; a second time stops it. */
export function toggleEar(sitting: Sitting, ports: Ports): Sitting {
	if (sitting.ear) {
		const {ear: _, ...deaf} = sitting.asking?.by === 'ear' ? settled(sitting) : sitting;
		return quietly(deaf, words.stopped);
	}

	if (!ports.ears) return refused(sitting, words.noEars);
	if (sitting.isLookOnly) return refused(sitting, words.lookOnly);
	return quietly({...sitting, ear: {nows: 0}}, words.started);
}

/** A message beside a question that waits would take its words away. */
function quietly(sitting: Sitting, text: string): Sitting {
	return sitting.asking ? sitting : said(sitting, text);
}

/** Asks the ears for what sounds now; the answer comes as an event. */
export function askNow(sitting: Sitting): Sitting {
	const {ear} = sitting;
	return ear ? {...sitting, ear: {...ear, nows: ear.nows + 1}} : said(sitting, words.notListening);
}

function withoutEar({ear: _, ...sitting}: Sitting, text: string, as: 'attention' | 'quiet'): Sitting {
	const isAsked = sitting.asking && sitting.asking.by !== 'ear';
	// A typed answer that waits keeps its question, behind what has to be told.
	if (isAsked) return {...sitting, message: {as: 'attention', text: `${text} ${sitting.message?.text ?? ''}`.trim()}};
	return {...settled(sitting), message: {as, text}};
}

/** A trouble is said in a sentence once; as long as it lasts, a word stays on the line. */
function viewed(sitting: Sitting, ear: Ear, view: ListeningView): Sitting {
	const {said: told = []} = ear;
	const fresh = view.troubles.find(({code}) => !told.includes(code));
	// A question that waits keeps its words; the trouble is told behind it, if it lasts.
	if (!fresh || sitting.asking) return {...sitting, ear: {...ear, view}};
	return {
		...sitting,
		ear: {...ear, view, said: [...told, fresh.code]},
		message: {as: 'attention', text: fresh.said},
	};
}

function plucked(sitting: Sitting, {verdict, tone, isTurned}: HeardPluck, ports: Ports): Sitting {
	if (!tone || verdict === 'no-pitch') return noted(sitting, words.noPitch);
	if (verdict === 'moving') return noted(sitting, words.moving);
	if (verdict === 'unsure') return noted(sitting, words.unsure(sdWords(tone.sdCents)));
	return toneHeard(sitting, tone, isTurned ? 'ring' : 'pluck', ports);
}

/** `ring`: it sounded on while its peg was turned; `now`: taken on demand, as it is. */
type Manner = 'pluck' | 'ring' | 'now';

function toneHeard(sitting: Sitting, tone: HeardTone, manner: Manner, ports: Ports): Sitting {
	if (isBusy(sitting)) return noted(sitting, words.busy(hertzWords(tone.hz)));
	const seen = seenBy(sitting, ports);
	const asked = askedPitch(seen, sitting.entry);
	if (!asked) return noted(sitting, words.notAsked(hertzWords(tone.hz)));
	const places = placesOf(seen.bench, asked);
	const up = semitonesUp(asked);
	const verdict = whichString(tone, places, {semitonesUp: up, asked: asked.string});
	const sure = sureString(verdict, asked);
	const heard = (string: StringNumber) => readingOf(tone, string, asked, seen);
	if (sure !== undefined) {
		const reading = heard(sure);
		if (sure === asked.string) return askedHeard(sitting, reading, asked, seen, manner, ports);
		// While one string is being turned, another's pitch stands for nothing; one that was only asked for may be taken instead.
		if (asked.toCents !== undefined || manner === 'ring')
			return noted(sitting, words.stringRings(sure, centsWords(reading)));
		return asked.how === 'open'
			? taken(sitting, reading, asked, seen, ports)
			: askHeard(sitting, [reading, heard(asked.string)], {seen, hz: tone.hz});
	}

	return doubted(sitting, {verdict, tone, asked, seen, manner}, ports);
}

/** Something else on the line, or a question about it: what is typed goes first. */
function isBusy({writing, entry, asking}: Sitting): boolean {
	return (
		writing === 'note' || (entry.text !== '' && !isOnlyString(entry)) || (asking !== undefined && asking.by !== 'ear')
	);
}

/** A note fretted elsewhere than at the 12th may well be another open string's; it was asked for, so less is enough. */
const sureOfFret = 0.95;

function sureString(verdict: StringVerdict, asked: AskedPitch): StringNumber | undefined {
	if (verdict.kind === 'string') return verdict.string;
	const [best] = verdict.candidates;
	if (!best) return undefined;
	if (verdict.why === 'another-string') return best.string;
	const isFret = verdict.why === 'between' && asked.fret !== undefined && asked.fret !== 12;
	const isAsked = best.string === asked.string && best.semitonesUp === semitonesUp(asked);
	return isFret && isAsked && best.probability > sureOfFret ? best.string : undefined;
}

/** The string that was asked for. On its way to an aim it is read when it stands there, or on demand. */
function askedHeard(
	sitting: Sitting,
	reading: HeardReading,
	asked: AskedPitch,
	seen: Seen,
	manner: Manner,
	ports: Ports,
): Sitting {
	const {toCents} = asked;
	if (toCents === undefined && manner === 'ring')
		return noted(sitting, words.heard(asked.string, asked, centsWords(reading)));
	if (toCents !== undefined && manner !== 'now' && !isThere(reading.cents, toCents, asked.string, seen))
		return noted(
			dropped(sitting),
			words.onTheWay(asked.string, centsWords(reading), aimWords(toCents), wayTo(reading.cents, toCents)),
		);
	return taken(sitting, reading, asked, seen, ports);
}

/** Nearest and farthest from its aim that a string counts as there, by how well the aim is known, cents. */
const thereCents = {least: 1.5, most: 5, fresh: 15} as const;

function isThere(cents: number, toCents: number, string: StringNumber, {bench}: Seen): boolean {
	const aim = bench.strings.find(row => row.string === string)?.aim;
	const near = aim
		? Math.max(1.5 * bench.sheet.openToleranceCents, Math.min(thereCents.most, aim.sd))
		: thereCents.fresh;
	return Math.abs(cents - toCents) <= Math.max(thereCents.least, near);
}

/** Stored by the stage's own rules, as if it had been typed; what the stage would ask is asked. */
function taken(sitting: Sitting, reading: HeardReading, asked: AskedPitch, seen: Seen, ports: Ports): Sitting {
	const {stage, task, bench} = seen;
	const answer = stage?.answer(reading.text, task, bench);
	const note = words.heard(reading.string, asked, centsWords(reading));
	switch (answer?.kind) {
		case undefined:
			return noted(sitting, words.notAsked(hertzWords(reading.hz)));
		case 'refused':
			return noted(refused(sitting, answer.said), note);
		case 'question':
			return isAgain(sitting, reading)
				? stored(sitting, reading, markHeard(reading, answer.deedsIfMeant), note, ports)
				: askHeard(sitting, [reading], {seen, hz: reading.hz, isSurprise: true});
		case 'deeds':
			return stored(sitting, reading, markHeard(reading, answer.deeds), note, ports);
	}
}

function stored(
	sitting: Sitting,
	reading: HeardReading,
	deeds: Parameters<typeof storeDeeds>[1],
	note: string,
	ports: Ports,
): Sitting {
	const after = storeDeeds({...settled(sitting), entry: emptyEntry}, deeds, ports);
	const more = tunerWords(reading, seenBy(after, ports).bench);
	const {message} = after;
	const told = more && message ? {...after, message: {...message, text: `${message.text} ${more}`}} : after;
	return noted(told, note);
}

/** Plucked again, alike, after it surprised: that is an answer, and both hands stay on the guitar. */
function isAgain({asking}: Sitting, {string, hz}: HeardReading): boolean {
	if (asking?.by !== 'ear' || !asking.isSurprise || asking.choices[0]?.string !== string) return false;
	return Math.abs(centsBetween(hz, asking.hz)) < againCents;
}

const againCents = 3;

interface Doubted {
	readonly verdict: StringVerdict;
	readonly tone: HeardTone;
	readonly asked: AskedPitch;
	readonly seen: Seen;
	readonly manner: Manner;
}

function doubted(sitting: Sitting, {verdict, tone, asked, seen, manner}: Doubted, ports: Ports): Sitting {
	if (verdict.kind === 'string') return sitting;
	const {why, candidates} = verdict;
	const [best] = candidates;
	if (why === 'played-otherwise' && best) return playedOtherwise(sitting, best, tone, asked, seen);
	const unpressed = why === 'between' ? candidates.find(each => isUnpressed(each, asked)) : undefined;
	if (unpressed) return noted(sitting, words.maybePlayedOtherwise(unpressed, asked));
	const own = readingOf(tone, asked.string, asked, seen);
	const isFarFromAim = asked.toCents !== undefined && !isThere(own.cents, asked.toCents, asked.string, seen);
	if ((isFarFromAim && manner !== 'now') || manner === 'ring')
		return noted(sitting, words.whoKnows(hertzWords(tone.hz)));
	if (why === 'far-from-all' && isOnlyOwn(own, candidates, asked)) {
		if (isAgain(sitting, own)) return takenAsMeant(sitting, own, asked, seen, ports);
		return askHeard(sitting, [own], {seen, hz: tone.hz, isSurprise: true});
	}

	const others = candidates
		.filter(each => each.semitonesUp === semitonesUp(asked) && each.string !== asked.string)
		.map(({string}) => readingOf(tone, string, asked, seen));
	const isOwnFirst = Math.abs(own.cents) < (best?.string === asked.string ? likelyCents : nearCents);
	const isOwnLikely = Math.abs(own.cents) < farthestCents;
	const readings = [...(isOwnFirst ? [own] : []), ...others, ...(!isOwnFirst && isOwnLikely ? [own] : [])];
	return readings.length === 0
		? noted(sitting, words.whoKnows(hertzWords(tone.hz)))
		: askHeard(sitting, readings, {seen, hz: tone.hz});
}

/** Likelier than this, what was asked for was sounded at no fret, or at the 12th: it is not another string's note that is stored then. */
const unpressedFrom = 0.1;

/** Asked for at a fret whose note is another string's as well: open, or an octave up, it is no note of that fret. */
function isUnpressed({string, semitonesUp: up, probability}: Candidate, asked: AskedPitch): boolean {
	const isOtherwise = up !== semitonesUp(asked) && string === asked.string;
	return asked.how === 'fretted' && isOtherwise && probability > unpressedFrom;
}

/** Within this of its target the string asked for is offered first, or within that if it is the likeliest; beyond the last not at all, cents. */
const nearCents = 200;
const likelyCents = 600;
const farthestCents = 1200;
/** No other string's target lies nearer than this: it can be no other, cents. */
const onlyOwnCents = 250;

function isOnlyOwn({string, cents}: HeardReading, candidates: readonly Candidate[], asked: AskedPitch): boolean {
	const isNear = (each: Candidate) => each.string !== string && Math.abs(each.cents) < onlyOwnCents;
	return (
		Math.abs(cents) < nearCents && !candidates.some(each => each.semitonesUp === semitonesUp(asked) && isNear(each))
	);
}

function takenAsMeant(
	sitting: Sitting,
	reading: HeardReading,
	asked: AskedPitch,
	{stage, task, bench}: Seen,
	ports: Ports,
): Sitting {
	const answer = stage?.answer(reading.text, task, bench, {meant: true});
	const note = words.heard(reading.string, asked, centsWords(reading));
	if (answer?.kind === 'deeds') return stored(sitting, reading, markHeard(reading, answer.deeds), note, ports);
	if (answer?.kind === 'question')
		return stored(sitting, reading, markHeard(reading, answer.deedsIfMeant), note, ports);
	return noted(answer ? refused(sitting, answer.said) : sitting, note);
}

/** Open for a harmonic may be taken for what it is; otherwise it is to be plucked as asked. */
function playedOtherwise(
	sitting: Sitting,
	{string, semitonesUp: up}: Candidate,
	tone: HeardTone,
	asked: AskedPitch,
	seen: Seen,
): Sitting {
	if (up !== 0) return noted(sitting, words.playedUp(string, asked));
	if (asked.how !== 'harmonic') return noted(sitting, words.playedOpen(string, asked));
	return askHeard(sitting, [harmonicInOpen(tone, {...asked, string}, seen)], {seen, hz: tone.hz, isOpenInstead: true});
}

/** Without a question by ear that no longer holds. */
function dropped(sitting: Sitting): Sitting {
	return sitting.asking?.by === 'ear' ? settled(sitting) : sitting;
}

function noted(sitting: Sitting, note: string): Sitting {
	return sitting.ear ? {...sitting, ear: {...sitting.ear, note, heard: (sitting.ear.heard ?? 0) + 1}} : sitting;
}

import type {ListeningView} from '../../listening/listening-view.ts';
import type {TroubleCode} from '../../listening/trouble.ts';
import type {Estimate} from '../../numeric/estimate.ts';
import {ninetyPercent} from '../../numeric/normal.ts';
import {formatCents, formatCentsSpread} from '../../units/cents.ts';
import {formatNumber} from '../../units/number.ts';
import {formatHertz} from '../../units/quantities.ts';
import type {AskedPitch} from './asked-pitch.ts';

/** Every sentence about listening. */
export const words = {
	noEars: 'There is nothing to listen with here; type the readings.',
	lookOnly: 'You only look on: nothing is listened to.',
	started: 'Listening: pluck what is asked for, or type it as ever. Tab or * stops.',
	stopped: 'Stopped listening; type the readings.',
	ended: (from: string) => `The sound from ${from} has ended; type the readings, or Tab or * listens again.`,
	notListening: 'Nothing is listened to; Tab or * starts.',
	nothingSounds: 'Nothing like a string sounds now.',
	noPitch: 'no pitch in that: pluck one string alone',
	moving: 'its pitch does not stand still: pluck softly, leave the peg',
	unsure: (cents: string) => `not settled (${cents}): pluck again, softly`,
	notAsked: (hz: string) => `heard ${hz}, but no pitch is asked for here`,
	busy: (hz: string) => `heard ${hz}; what you type goes first`,
	heard: (string: number, sounded: Sounded, cents: string) => `heard string ${string}${howWords(sounded)}: ${cents}`,
	onTheWay: (string: number, cents: string, aim: string, way: 'up' | 'down') =>
		`string ${string}: ${cents}, go ${way} to ${aim}`,
	stringRings: (string: number, cents: string) => `that is string ${string} (${cents}); Down chooses it`,
	whoKnows: (hz: string) => `heard ${hz}: cannot tell which string`,
	playedOpen: (string: number, asked: AskedPitch) => `that was string ${string} open: ${insteadWords(asked)}`,
	playedUp: (string: number, asked: AskedPitch) =>
		`that was an octave above string ${string}${asked.how === 'fretted' ? ', as at its 12th fret' : ''}: ${insteadWords(asked)}`,
	maybePlayedOtherwise: (
		{string, semitonesUp}: {readonly string: number; readonly semitonesUp: number},
		asked: AskedPitch,
	) => `that fits string ${string} ${semitonesUp === 0 ? 'open' : 'an octave up'}: ${insteadWords(asked)}`,
	at: (string: number, note: string, sounded: Sounded, cents: string) =>
		`string ${string} (${note})${howWords(sounded)} at ${cents}`,
	question: (hz: string, first: string, {expected, fits}: {readonly expected?: string; readonly fits?: number}) =>
		`Heard ${hz}: ${first}${expected === undefined ? '' : `, expected ${expected}`}${fits === undefined ? '' : `; that fits fret ${fits}`}.`,
	inQuestion: (hz: string) => `heard ${hz}: see the question`,
	openInstead: (hz: string, first: string) => `Heard ${hz}, the open string: in it, ${first}.`,
	ways: (other: string | undefined) =>
		other === undefined
			? 'Enter takes it, Esc drops it; or pluck again.'
			: `Enter takes it, Down: ${other}; Esc drops it; or pluck again.`,
	tunerShows: (cents: string) => `A tuner that follows the sound’s period would show ${cents}.`,
	opening: 'opening the sound input',
	waitingFor: (asked: string | undefined) => (asked === undefined ? 'waiting' : `pluck ${asked}`),
	plucked: 'plucked',
	settled: 'settled ',
} as const;

type Sounded = Pick<AskedPitch, 'how' | 'fret'>;

function howWords({how, fret = 12}: Sounded): string {
	if (how === 'fretted') return fret === 12 ? ' fretted' : ` at fret ${fret}`;
	return how === 'harmonic' ? ' harmonic' : '';
}

/** What to do to sound it as it was asked for. */
function insteadWords({string, how, fret = 12}: AskedPitch): string {
	if (how === 'fretted') return `press string ${string} at fret ${fret}`;
	return how === 'harmonic' ? `touch string ${string} at the 12th fret` : `pluck string ${string} open`;
}

/** A trouble in a word or two, where the whole sentence was said already. */
export const troubleMarks: Readonly<Partial<Record<TroubleCode, string>>> = {
	silence: 'silence',
	clipping: 'too loud',
	'losing-samples': 'sound gets lost',
	'too-soft': 'too soft',
	hum: 'hum',
};

/** `−12.3 ±0.2`. */
export function heardCents(cents: Estimate): string {
	return formatCentsSpread(cents);
}

export function wayTo(fromCents: number, toCents: number): 'up' | 'down' {
	return fromCents < toCents ? 'up' : 'down';
}

export function aimWords(cents: number): string {
	return formatCents(cents);
}

/** Hertz with the digits that the ear can tell. */
export function hertzWords(hz: number): string {
	return formatHertz(hz, 2);
}

export function sdWords(sdCents: number): string {
	return `±${formatNumber(ninetyPercent * sdCents, 1)}`;
}

/** What sounds now, when it is not known as any string's. */
export function soundWords({hz, sdCents}: ListeningView): string {
	return hz === undefined ? words.plucked : `${hertzWords(hz)}${sdCents === undefined ? '' : ` ${sdWords(sdCents)}`}`;
}

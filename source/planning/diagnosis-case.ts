import type {Estimate} from '../numeric/estimate.ts';

/** What is known when a cause is looked for. Strings count from 0 = thinnest; cents positive = sharp. */
export interface DiagnosisCase {
	readonly strings: readonly DiagnosisString[];
	/** In order of time, from the last adjustment on. */
	readonly events: readonly DiagnosisEvent[];
	/** Spread of one reading, cents. */
	readonly readingCents: number;
	/** Spread of a measured tail height, mm. */
	readonly tailSdMm: number;
	/** Change of tail height when the plate sharpens the string that reacts most by one cent, mm. */
	readonly tailMmPerCent: number;
	/** How far from home friction lets a sound plate rest, cents of the string that reacts most. */
	readonly frictionCents: Estimate;
	/** What was believed of every string's pitch before the first event; undefined where nothing was. Without it only changes count. */
	readonly before?: {
		readonly cents: readonly (number | undefined)[];
		/** n × n, cents squared; rows of unknown strings are not looked at. */
		readonly covariance: readonly (readonly number[])[];
	};
}

export interface DiagnosisString {
	/** Cents when the plate goes back a little, on a scale common to all strings, positive. */
	readonly responseCents: Estimate;
	/** Cents that every string moves when this one goes up by one cent of its own accord; 1 for itself. */
	readonly throughBridge: readonly number[];
	/** 1 = just fitted, 0 = settled. */
	readonly newness: number;
}

export type DiagnosisEvent =
	| {readonly kind: 'read'; readonly index: number; readonly cents: number}
	/** Plucked for something else than its open pitch. */
	| {readonly kind: 'plucked'; readonly index: number}
	| {readonly kind: 'tail'; readonly tailMm: number}
	| {readonly kind: 'arm'; readonly motion: 'dive' | 'pull-up' | 'bend'}
	/** Hours or days in which nobody did anything: warmth changes, strings settle. */
	| {readonly kind: 'night'};

/** One reading: which channel (a string, or the tail as the last one), when, and what it said. */
export interface Moment {
	readonly channel: number;
	/** Place in `events`. */
	readonly at: number;
	readonly value: number;
	readonly sd: number;
}

export function momentsOf({strings, events, readingCents, tailSdMm}: DiagnosisCase): readonly Moment[] {
	return events.flatMap((event, at): readonly Moment[] => {
		if (event.kind === 'tail') return [{channel: strings.length, at, value: event.tailMm, sd: tailSdMm}];
		if (event.kind !== 'read') return [];
		if (!strings[event.index]) {
			throw new RangeError(`diagnose: expected index to be 0 to ${strings.length - 1}, got ${event.index}`);
		}

		return [{channel: event.index, at, value: event.cents, sd: readingCents}];
	});
}

/** By channel: what a plate that sharpens the most responsive string by one cent does to each. */
export function platePattern({strings, tailMmPerCent}: DiagnosisCase): Float64Array {
	const most = mostResponse(strings);
	return Float64Array.from([...strings.map(({responseCents}) => responseCents.mean / most), tailMmPerCent]);
}

function mostResponse(strings: readonly DiagnosisString[]): number {
	return Math.max(1e-9, ...strings.map(({responseCents}) => responseCents.mean));
}

/** Spread of each string's share in the plate's pattern: what the belief does not know, and what it leaves out. */
export function plateSpread({strings}: DiagnosisCase): readonly number[] {
	const most = mostResponse(strings);
	return strings.map(({responseCents: {mean, sd}}) => Math.hypot(sd, leftOutShare * mean) / most);
}

const leftOutShare = 0.05;

/** By channel: one string up by one cent of its own accord, and what that does through the bridge. */
export function stringPattern({strings, tailMmPerCent}: DiagnosisCase, index: number): Float64Array {
	const through = strings[index]!.throughBridge;
	const most = mostResponse(strings);
	// The plate moves as the other strings tell.
	const others = strings.map(({responseCents}, at) => (at === index ? 0 : (through[at]! * most) / responseCents.mean));
	const plate = others.reduce((sum, cents) => sum + cents, 0) / Math.max(1, strings.length - 1);
	return Float64Array.from([...strings.map((_, at) => (at === index ? 1 : through[at]!)), plate * tailMmPerCent]);
}

/** Places in `events` where a new round begins: the start, each movement of the arm, and each string read again. */
export function roundStarts({events}: DiagnosisCase): readonly number[] {
	const starts = [0];
	let heard = new Set<number>();
	for (const [at, event] of events.entries()) {
		if (event.kind === 'arm') {
			starts.push(at);
			heard = new Set();
		} else if (event.kind === 'read') {
			if (heard.has(event.index)) {
				starts.push(at);
				heard = new Set();
			}
			heard.add(event.index);
		}
	}

	return [...new Set(starts)];
}

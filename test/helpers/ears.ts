import type {HeardTone} from '../../source/listening/estimate-tone.ts';
import type {HeardPluck} from '../../source/listening/listening.ts';
import type {ListeningView} from '../../source/listening/listening-view.ts';
import {lawWithFirstPartial} from '../../source/listening/partial-law.ts';
import {askedPitch} from '../../source/shell/ears/asked-pitch.ts';
import type {Attention, EarEvent, Ears} from '../../source/shell/ears/ears.ts';
import {hear} from '../../source/shell/ears/hear.ts';
import type {Ports} from '../../source/shell/ports.ts';
import {realPorts} from '../../source/shell/real-ports.ts';
import {seenBy} from '../../source/shell/seen.ts';
import type {Sitting, Wizard} from '../../source/shell/state.ts';
import {press, startSetup} from '../../source/shell/wizard.ts';
import {type MemoryStore, memoryStore} from './memory-store.ts';

/** Ears that hear what a test tells them, and remember what they were told. */
export interface FakeEars extends Ears {
	readonly opened: () => number;
	readonly isOpen: () => boolean;
	readonly nows: () => number;
	readonly attention: () => Attention | undefined;
	tell(event: EarEvent): void;
}

export function fakeEars({startsOn = false, hasEnd = false} = {}): FakeEars {
	let opened = 0;
	let nows = 0;
	let listener: ((event: EarEvent) => void) | undefined;
	let attention: Attention | undefined;
	return {
		startsOn,
		hasEnd,
		opened: () => opened,
		isOpen: () => listener !== undefined,
		nows: () => nows,
		attention: () => attention,
		tell: event => listener?.(event),
		open(tell) {
			opened++;
			listener = tell;
			return {
				attend: next => {
					attention = next;
				},
				now: () => void nows++,
				stop: () => {
					listener = undefined;
				},
			};
		},
	};
}

export interface ToneAt {
	readonly sdCents?: number;
	/** What a tuner that looks for the period would show beyond the truth, cents. */
	readonly tunerOffCents?: number;
	/** Of the tone as it sounds. */
	readonly stiffness?: number;
}

/** A tone as the listening folder would give it out; its fit's inner workings are left empty. */
export function toneAt(hz: number, {sdCents = 0.1, tunerOffCents, stiffness = 6e-5}: ToneAt = {}): HeardTone {
	const law = lawWithFirstPartial(hz, stiffness);
	return {
		hz,
		sdCents,
		law,
		stiffnessSd: 0.02 * stiffness,
		...(tunerOffCents !== undefined && {periodTunerHz: hz * 2 ** (tunerOffCents / 1200)}),
		fit: {law, sdCents, stiffnessSd: 0.02 * stiffness, partials: [], disagreement: 0.5} as unknown as HeardTone['fit'],
		level: 0.05,
		breaks: 0,
	};
}

export function pluckAt(hz: number, more: ToneAt & Partial<HeardPluck> = {}): EarEvent {
	const {sdCents, tunerOffCents, stiffness, ...pluck} = more;
	const tone = toneAt(hz, {
		...(sdCents !== undefined && {sdCents}),
		...(tunerOffCents !== undefined && {tunerOffCents}),
		...(stiffness !== undefined && {stiffness}),
	});
	return {
		kind: 'pluck',
		pluck: {onsetS: 1, toldS: 2, verdict: 'settled', tone, isClipped: false, isTurned: false, ...pluck},
	};
}

export function viewAt(view: Partial<ListeningView> = {}): EarEvent {
	return {
		kind: 'view',
		view: {rmsDb: -30, peakDb: -18, isClipping: false, phase: 'waiting', settled: 0, troubles: [], ...view},
	};
}

/** The real wizard without a disk: real stages, real belief, ears that a test speaks into. */
export function earPorts(ears: Ears = fakeEars()): Ports & {readonly store: MemoryStore} {
	const store = memoryStore();
	return {...realPorts(store, () => 5000), store, ears};
}

/** A new set-up, Enter pressed until a pitch is asked for. */
export function askingPitch(ports: Ports, first: Sitting = startSetup(ports, undefined)): Sitting {
	let sitting = first;
	for (let keys = 0; !askedPitch(seenBy(sitting, ports), sitting.entry); keys++) {
		if (keys > 40) throw new RangeError(`askingPitch: still at ${seenBy(sitting, ports).task.headline}`);
		sitting = sat(press(sitting, 'enter', ports));
	}

	return sitting;
}

export function sat(wizard: Wizard): Sitting {
	if (wizard.screen !== 'sitting') throw new RangeError(`sat: expected to stay at the set-up, got ${wizard.screen}`);
	return wizard;
}

/** Keys and what is heard, one after the other. */
export function told(wizard: Wizard, ports: Ports, ...inputs: readonly (string | EarEvent)[]): Sitting {
	return sat(
		inputs.reduce<Wizard>(
			(now, input) => (typeof input === 'string' ? press(now, input, ports) : hear(now, input, ports)),
			wizard,
		),
	);
}

/** Pitch of a string of six in standard tuning, so many cents off: equal temperament, A 440. */
export function hzOf(string: number, cents = 0): number {
	const midi = [64, 59, 55, 50, 45, 40][string - 1]!;
	return 440 * 2 ** ((midi - 69) / 12 + cents / 1200);
}

import {askedPitch} from '../../source/shell/ears/asked-pitch.ts';
import type {Ports} from '../../source/shell/ports.ts';
import {seenBy} from '../../source/shell/seen.ts';
import type {Sitting} from '../../source/shell/state.ts';
import {hzOf, pluckAt, told} from './ears.ts';

/** Ways to places where ears matter. */
export const hearing = {
	/** The plate measured level, Enter pressed on: to the first turn that is asked for. */
	turningOf(from: Sitting, ports: Ports): Sitting {
		let sitting = from;
		for (let steps = 0; steps < 20; steps++) {
			const seen = seenBy(sitting, ports);
			if (askedPitch(seen, sitting.entry)?.toCents !== undefined) return sitting;
			sitting = seen.task.enter ? told(sitting, ports, 'enter') : told(sitting, ports, ...'0', 'enter');
		}

		throw new RangeError(`turningOf: still at ${seenBy(sitting, ports).task.headline}`);
	},

	/** All strings heard where they belong, Enter at all else: to the first harmonic that is asked for. */
	harmonicOf(from: Sitting, ports: Ports): Sitting {
		let sitting = from;
		for (let steps = 0; steps < 60; steps++) {
			const {task} = seenBy(sitting, ports);
			const asked = askedPitch(seenBy(sitting, ports), sitting.entry);
			if (asked?.how === 'harmonic') return sitting;
			sitting = asked
				? told(sitting, ports, pluckAt(hzOf(asked.string, asked.toCents ?? 0)))
				: told(sitting, ports, ...(task.enter ? [] : ['0']), 'enter');
		}

		throw new RangeError(`harmonicOf: still at ${seenBy(sitting, ports).task.headline}`);
	},
};

import {askedPitch} from '../../source/shell/ears/asked-pitch.ts';
import type {Ports} from '../../source/shell/ports.ts';
import {seenBy} from '../../source/shell/seen.ts';
import type {Sitting} from '../../source/shell/state.ts';
import {told} from './ears.ts';

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
};

import type {Ports} from '../ports.ts';
import {seenBy} from '../seen.ts';
import type {Sitting, Wizard} from '../state.ts';
import {askedPitch} from './asked-pitch.ts';
import type {Attention, EarEvent, OpenEars} from './ears.ts';
import {hintsHz, placesOf} from './places.ts';

/** Keeps the machine's ears as the wizard's state says: open while it listens, told what is asked for. */
export interface EarsFollower {
	/** After every change of the wizard. */
	follow(wizard: Wizard): void;
	stop(): void;
	/** Ears are open, and sound may still come. */
	isOpen(): boolean;
}

/** @param take Takes what was heard into the wizard; follows up with `follow`. */
export function earsFollower(ports: Ports, take: (event: EarEvent) => void): EarsFollower {
	let open: OpenEars | undefined;
	let nows = 0;
	let last: Wizard | undefined;

	const stop = () => {
		open?.stop();
		open = undefined;
	};
	return {
		stop,
		isOpen: () => open !== undefined,
		follow(wizard) {
			const sitting = wizard.screen === 'sitting' ? wizard : undefined;
			const ear = sitting?.ear;
			if (!sitting || !ear) return stop();
			if (!open) {
				nows = ear.nows;
				last = undefined;
				const opened = ports.ears?.open(event => {
					// What was on its way when it was stopped belongs to nobody.
					if (open !== opened) return;
					if (event.kind === 'trouble' || event.kind === 'end') open = undefined;
					take(event);
				});
				open = opened;
			}

			if (ear.nows !== nows) {
				nows = ear.nows;
				open?.now();
			}

			if (isAsBefore(last, sitting)) return;
			last = sitting;
			open?.attend(attentionOf(sitting, ports));
		},
	};
}

/** Most changes are mere views; they change nothing about what is asked. */
function isAsBefore(last: Wizard | undefined, now: Sitting): boolean {
	return (
		last?.screen === 'sitting' &&
		last.journal === now.journal &&
		last.entry === now.entry &&
		last.asking === now.asking &&
		last.writing === now.writing
	);
}

export function attentionOf(sitting: Sitting, ports: Ports): Attention {
	const seen = seenBy(sitting, ports);
	const asked = askedPitch(seen, sitting.entry);
	const isFree = sitting.asking === undefined && sitting.writing === 'answer';
	return {
		believedHz: hintsHz(placesOf(seen.bench, asked), asked),
		isWanted: asked !== undefined && isFree,
	};
}

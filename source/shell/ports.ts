import type {Learned} from '../estimation/memory.ts';
import type {Bench, Outlook} from '../session/bench.ts';
import type {Deed, Story} from '../session/facts.ts';
import type {InstrumentSheet} from '../session/sheet.ts';
import type {PracticeMove, Stage} from '../stages/stage.ts';
import type {Store} from '../storage/store.ts';
import type {Ears} from './ears/ears.ts';

/** Everything that the wizard needs from elsewhere, so that it is a function of values and these. */
export interface Ports {
	/** In the order they are walked. */
	readonly stages: readonly Stage[];
	readonly store: Store;
	/** @param learned What earlier set-ups of the guitar taught, if anything. */
	readonly benchOf: (story: Story, learned: Learned | undefined) => Bench;
	readonly outlookOf: (story: Story, learned: Learned | undefined) => Outlook;
	/** What a story teaches for the guitar's next set-up. */
	readonly lessonOf: (story: Story, learned: Learned | undefined) => Learned;
	/** Whether these deeds may be stored now; a refusal says why not, in a sentence. */
	readonly decide: (
		deeds: readonly Deed[],
		story: Story,
	) => {readonly ok: true} | {readonly ok: false; readonly said: string};
	/** Simulated hands: what they did and what the tuner or the gauge then showed. */
	readonly practise: (story: Story, move: PracticeMove) => readonly Deed[];
	/** What a new set-up starts from, before intake asks anything. */
	readonly firstSheet: (practiceSeed?: number) => InstrumentSheet;
	/** Writes a text file where the person works, never over another; `said` tells where, or why not. */
	readonly writeFile: (name: string, text: string) => {readonly ok: boolean; readonly said: string};
	/** Something to listen with; absent where there is nothing. */
	readonly ears?: Ears;
	/** Milliseconds since 1970. */
	readonly now: () => number;
	/** A seed for a new practice guitar. */
	readonly seed: () => number;
}

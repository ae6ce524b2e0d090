import {stringNumbers, type StringNumber} from '../../source/music/string-number.ts';
import type {Bench} from '../../source/session/bench.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import {decide} from '../../source/session/decide.ts';
import {stateOf} from '../../source/session/evolve.ts';
import type {Deed} from '../../source/session/facts.ts';
import {type Journal, record} from '../../source/session/journal.ts';
import type {InstrumentSheet} from '../../source/session/sheet.ts';
import {intonate} from '../../source/stages/intonate/index.ts';
import {words} from '../../source/stages/intonate/words.ts';
import type {Answer, Task} from '../../source/stages/stage.ts';
import {journalOf, opened, read} from './deeds.ts';

/**
 * A person at the intonate stage who types, with the real belief behind it:
 * all strings at pitch, only `string` still to be intonated.
 */
export class IntonationBench {
	#journal: Journal;

	constructor(string: StringNumber, sheet: Partial<InstrumentSheet> = {}, way = 'all-at-once') {
		const full = {...defaultSheet(), job: 'intonation', ...sheet} as const;
		const others = stringNumbers.slice(0, full.strings.length).filter(each => each !== string);
		const all = stringNumbers.slice(0, full.strings.length);
		this.#journal = journalOf(
			{type: 'SheetFilled', sheet: full},
			opened,
			...['intake', 'unlock', 'tune', 'balance'].map((stage): Deed => ({type: 'StagePassed', stage})),
			...[1, 2, 3].flatMap(() => all.map(each => read(each, 0))),
			...others.map((each): Deed => ({type: 'ItemTicked', item: words.accepted(each), done: true})),
			{type: 'WayChosen', choice: 'intonation', value: way},
		);
	}

	/** All so far, to be stored. */
	get journal(): Journal {
		return this.#journal;
	}

	get bench(): Bench {
		return benchOf(this.#journal.story);
	}

	get task(): Task {
		return intonate.task(this.bench);
	}

	/** The whole instruction as a person reads it. */
	get asked(): string {
		const {headline, why, how = []} = this.task;
		return [headline, why, ...how].join('\n');
	}

	/** A line typed and Enter pressed; an empty one is Enter alone. */
	type(text: string): Answer {
		const {task, bench} = this;
		if (text === '') {
			if (!task.enter || task.enter.deeds === 'practice') throw new Error(`nothing for Enter at: ${task.headline}`);
			this.#store(task.enter.deeds);
			return {kind: 'deeds', deeds: task.enter.deeds};
		}
		const answer = intonate.answer(text, task, bench);
		if (answer.kind === 'deeds') this.#store(answer.deeds);
		return answer;
	}

	press(key: string): void {
		const does = intonate.keys(this.bench, this.task).find(action => action.key === key)?.does;
		if (does?.kind !== 'deeds') throw new Error(`no key ${key} at: ${this.task.headline}`);
		this.#store(does.deeds);
	}

	/** Turns and plucks until nothing but saddles is asked about: turned as asked, plucked as it would be. */
	bringUp(): void {
		for (let steps = 0; /^(Turn|Pluck|Take the support)/.test(this.task.headline); steps++) {
			if (steps > 60) throw new Error(`still at: ${this.task.headline}`);
			const {act, string} = this.task;
			if (act?.kind === 'turn') this.type(act.toCents.toFixed(1));
			else if (act?.kind === 'unsupport') this.type('');
			else this.type(this.#plucked(string!));
		}
	}

	/** A string stands where it was left, as far as is known. */
	#plucked(string: StringNumber): string {
		return (this.bench.strings[string - 1]!.now?.mean ?? 0).toFixed(1);
	}

	/** Harmonics as asked, then the fretted 12th once; whatever else has to be tuned first is tuned. */
	sound(harmonic: string, fretted: string): void {
		for (let steps = 0; steps < 12; steps++) {
			this.bringUp();
			const isHarmonic = this.task.headline.includes('harmonic');
			if (!isHarmonic && !/^(Press|Lift the finger)/.test(this.task.headline)) break;
			this.type(isHarmonic ? harmonic : fretted);
			if (!isHarmonic) break;
		}
		this.bringUp();
	}

	#store(deeds: readonly Deed[]): void {
		const decision = decide(deeds, stateOf(this.#journal.story));
		if (!decision.ok) throw new Error(decision.said);
		this.#journal = record(this.#journal, deeds, 1000);
	}
}

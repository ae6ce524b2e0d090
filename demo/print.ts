import {closingLines} from './closing.ts';
import {type Played, play} from './play.ts';
import type {DemoStory} from './story.ts';
import {stageLines} from './telling.ts';

/** The whole story in print, played on its first guitar. Same story, same lines. */
export function printed(story: DemoStory, played: Played = play(story, story.seeds[0])): readonly string[] {
	const titles = [...new Set(played.steps.map(({stage}) => stage.title))];
	const stages = titles.flatMap(title => [
		'',
		title.toUpperCase(),
		...stageLines(played.steps.filter(({stage}) => stage.title === title)),
	]);
	return [
		`${story.title} (practice guitar ${played.seed})`,
		...story.told,
		'The person, the guitar and every reading are invented: the instrument is a simulation.',
		...stages,
		'',
		...closingLines(played),
	];
}

import {stories} from './stories/index.ts';
import {play} from './play.ts';
const story = stories.find(s => s.name === 'gauge-and-tuning-change')!;
const {steps} = play(story, 5);
for (const st of steps.slice(-75)) console.log((st.stage.id+'         ').slice(0,12), st.task.headline.slice(0,90), '|', st.deeds.map((d: any) => d.type + (d.string ? ' s' + d.string : '') + ('cents' in d ? ' ' + d.cents : '')).join(','));

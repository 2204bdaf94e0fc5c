import { quotedValue, writtenAt } from '../../input/yaml/edit-yaml.js';
import { type CardField, cards, isRare, toolsFor } from '../card.js';
import { isPressing, type Notes, useBench } from '../store.js';
import { NoteList } from './notes.js';

/** Every field of the joint as its kind has them; what is said about a field stands under it. */
export function JobCard({ saidAt }: { readonly saidAt: (path: readonly string[]) => readonly Notes[] }) {
  const { state } = useBench();
  const { model } = state;
  const name = model.chosen;
  const kind = writtenAt(model.document, state.text, ['joints', name, 'kind']);
  const groups = cards.get(kind ?? '') ?? [];
  return (
    <section class="card" aria-labelledby="card-title">
      <h2 id="card-title">Job card</h2>
      {groups.map(({ title, fields, folded }) => {
        const row = (field: CardField) => (
          <FieldRow
            key={field.path.join('.')}
            field={field}
            joint={name}
            said={saidAt(['joints', name, ...field.path])}
          />
        );
        const has = ({ path }: CardField) => model.document.hasIn(['joints', name, ...path]);
        const rare = folded ? [] : fields.filter((field) => isRare(field) && !has(field));
        const filled = fields.some(has);
        return folded ? (
          <details key={title} open={filled}>
            <summary>{title}</summary>
            <div class="rows">{fields.map(row)}</div>
          </details>
        ) : (
          <fieldset key={title}>
            <legend>{title}</legend>
            <div class="rows">{fields.filter((field) => !rare.includes(field)).map(row)}</div>
            {rare.length > 0 && (
              <details class="rare">
                <summary>more</summary>
                <div class="rows">{rare.map(row)}</div>
              </details>
            )}
          </fieldset>
        );
      })}
    </section>
  );
}

function FieldRow({
  field,
  joint,
  said,
}: {
  readonly field: CardField;
  readonly joint: string;
  readonly said: readonly Notes[];
}) {
  const { state, dispatch } = useBench();
  const { model, text } = state;
  const path = ['joints', joint, ...field.path];
  const id = `field-${field.path.join('-')}`;
  const value = writtenAt(model.document, text, path) ?? '';
  const pressing = said.filter(isPressing);
  const choices =
    field.options ?? (field.tool && model.job ? toolsFor(field, model, model.job.shop) : undefined);
  const broken = model.document.errors.length > 0;
  const change = (typed: string, run?: string) =>
    dispatch({
      do: 'edit',
      edits: [typed === '' && !field.required ? { remove: path } : { set: path, to: quotedValue(typed) }],
      ...(run === undefined ? {} : { run }),
    });
  const shared = {
    id,
    disabled: broken,
    'aria-invalid': pressing.some(({ diagnostic }) => diagnostic.level === 'refused'),
    ...(pressing.length > 0 ? { 'aria-describedby': `${id}-said` } : {}),
    ...(field.hint ? { title: field.hint } : {}),
  };
  return (
    <div class={pressing.length > 0 ? 'row pressing' : 'row'}>
      <label for={id}>{field.label}</label>
      {choices ? (
        <select {...shared} value={value} onChange={(event) => change(event.currentTarget.value)}>
          {(!field.required || value === '') && <option value="">{field.tool ? 'none' : 'as usual'}</option>}
          {value !== '' && !choices.includes(value) && <option value={value}>{value}</option>}
          {choices.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      ) : (
        <input
          {...shared}
          value={value}
          placeholder={field.required ? '' : (field.usual ?? 'worked out')}
          autocomplete="off"
          spellcheck={false}
          onInput={(event) => change(event.currentTarget.value, `field ${path.join('.')}`)}
          onBlur={() => dispatch({ do: 'settle' })}
        />
      )}
      <NoteList said={pressing} id={`${id}-said`} />
    </div>
  );
}

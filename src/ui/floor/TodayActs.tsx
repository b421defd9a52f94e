import { go, type Route } from '../routes';

/** What can be done from here besides a session. On a first start they come with the card below them, so that nothing on the screen moves. */
export function TodayActs() {
  return (
    <div class="today-acts">
      <button type="button" class="button" onClick={() => go({ page: 'client', stream: null })}>
        + client
      </button>
      {DESK.map(({ to, name }) => (
        <button key={name} type="button" class="button button-plain" onClick={() => go(to)}>
          {name}
        </button>
      ))}
    </div>
  );
}

const DESK: readonly { readonly to: Route; readonly name: string }[] = [
  { to: { page: 'week' }, name: 'The week' },
  { to: { page: 'library', part: 'exercises' }, name: 'Library' },
  { to: { page: 'settings' }, name: 'Settings' },
  { to: { page: 'help' }, name: 'Help' },
];

// Stands apart from the app, so that it works when the app does not: where nothing was drawn, or at /?repair, it brings the page that helps.
addEventListener('load', () => {
  const look = () => {
    const place = document.getElementById('app');
    if (location.search !== '?repair' && place && place.childElementCount > 0) return;
    const script = document.createElement('script');
    script.src = '/repair.js';
    document.head.append(script);
  };
  if (location.search === '?repair') look();
  else setTimeout(look, 1500);
});

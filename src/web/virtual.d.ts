declare module 'virtual:sheets.css';

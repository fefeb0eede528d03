import './main.ts';

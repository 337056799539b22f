/// <reference types="astro/client" />

declare module 'virtual:tokens.css';

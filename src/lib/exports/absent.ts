// vite.config.ts puts this empty module in the place of html2canvas, canvg and dompurify: jsPDF would load them
// to print HTML and SVG, which no export here does, and they would add 104 kB (gzip) to what a browser stores.
export default {};

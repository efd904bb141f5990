// The survey's data, as the page carries it.

const readJson = id => JSON.parse(document.getElementById(id).textContent);
const Survey = readJson("survey-data");

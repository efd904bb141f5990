// Opens a data package with the reference reader of the Frictionless project, casts every cell to
// the type that the package states, and prints the number of rows of each table.
import datapackage from 'datapackage';

const opened = await datapackage.Package.load(process.argv[2]);
const result = { valid: opened.valid, errors: opened.errors.map(String), profile: opened.profile.name, rows: {} };
for (const resource of opened.resources) {
  const rows = await resource.read({ keyed: true, cast: true });
  result.rows[resource.name] = rows.length;
}
console.log(JSON.stringify(result));

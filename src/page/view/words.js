// The page's own words, English and Spanish (trade terms as in the papers). Everything about a figure comes from the program.
import {FILE_WORDS} from './file_words.js';

const WORDS = {
  ...FILE_WORDS,
  house: ['House', 'Casa'], opening: ['Opening', 'Vano'], glass: ['Glass', 'Vidrio'], answer: ['Answer', 'Respuesta'],
  papers: ['Papers', 'Papeles'], show: ['Show', 'Mostrar'], jobs: ['Jobs', 'Trabajos'], places: ['Places of the job', 'Partes del trabajo'],
  undo: ['Undo', 'Deshacer'], redo: ['Redo', 'Rehacer'], close: ['Close', 'Cerrar'],
  windows: ['openings', 'vanos'], keptAt: ['kept on this device %s', 'guardado en este equipo %s'],
  forgets: ['this browser forgets; save to a file', 'este navegador olvida; guarde en un archivo'],
  jobsHere: ['Jobs on this device', 'Trabajos en este equipo'], noJobs: ['No job yet.', 'Aún no hay trabajos.'],
  newJob: ['New job, two openings to start from', 'Trabajo nuevo, con dos vanos para empezar'],
  newExample: ['The whole example house', 'La casa de ejemplo entera'], importZip: ['Open a job saved as .zip', 'Abrir un trabajo guardado como .zip'],
  importFolder: ['Open a job folder', 'Abrir una carpeta de trabajo'], copy: ['Copy', 'Copiar'], remove: ['Delete', 'Borrar'],
  saveFile: ['Save to a file', 'Guardar en un archivo'], removed: ['%s is deleted.', 'Se borró %s.'], bringBack: ['Bring it back', 'Recuperar'],
  firstJob: ['My first job', 'Mi primer trabajo'], exampleName: ['Example house', 'Casa de ejemplo'], copyName: ['%s, copy', '%s, copia'],
  readOnly: ['Open in another tab, so it can only be read here; close it there, or make a copy.',
    'Abierto en otra pestaña: aquí solo se puede leer; ciérrelo allí o haga una copia.'],
  strip: ['The house unrolled, clockwise from north', 'La casa desplegada, en sentido horario desde el norte'],
  facts: ['The house', 'La casa'], grey: ['Grey: taken for granted until you say otherwise.', 'En gris: se da por sentado hasta que usted diga otra cosa.'],
  addOpening: ['Add an opening', 'Agregar un vano'], copyOpening: ['Copy this opening', 'Copiar este vano'],
  removeOpening: ['Remove this opening', 'Quitar este vano'], earlier: ['Opening before', 'Vano anterior'],
  later: ['Next opening', 'Vano siguiente'],
  fits: ['fits', 'cabe'], measure_again: ['measure again', 'volver a medir'], escape_fails: ['escape FAILS', 'escape NO CUMPLE'],
  not_yet: ['not ordered yet', 'aún no se pide'], unmeasured: ['not measured yet', 'sin medir'], elsewhere: ['Elsewhere in the job:', 'En otra parte del trabajo:'], kept: ['stays', 'se queda'],
  safety: ['safety glass', 'vidrio de seguridad'], unread: ['cannot be read', 'no se puede leer'],
  north: ['north', 'norte'], northeast: ['northeast', 'noreste'], east: ['east', 'este'], southeast: ['southeast', 'sureste'],
  south: ['south', 'sur'], southwest: ['southwest', 'suroeste'], west: ['west', 'oeste'], northwest: ['northwest', 'noroeste'],
  next: ['next', 'siguiente'], keypad: ['Keypad', 'Teclado'],
  back: ['back one letter', 'borrar una letra'], feet: ['feet', 'pies'], drawingOf: ['Opening %s: old window and new over each other', 'Vano %s: ventana vieja y nueva superpuestas'],
  width_bottom: ['width at the bottom', 'ancho abajo'], width_middle: ['width in the middle', 'ancho al medio'], width_top: ['width at the top', 'ancho arriba'],
  height_left: ['height at the left', 'alto a la izquierda'], height_middle: ['height in the middle', 'alto al medio'],
  height_right: ['height at the right', 'alto a la derecha'], diagonal_1: ['diagonal from the lower left', 'diagonal desde abajo a la izquierda'],
  diagonal_2: ['diagonal from the upper left', 'diagonal desde arriba a la izquierda'],
  fins: ['Side fins', 'Aletas laterales'], lip: ['Sill lip', 'Labio del alféizar'], finsLeft: ['left', 'quedan'], none: ['none', 'ninguno'], one: ['one cut', 'una cortada'],
  both: ['both cut', 'ambas cortadas'], cannot: ['cannot', 'no se puede'], lipLeft: ['left', 'queda'], lipCut: ['cut', 'cortado'],
  noFins: ['no fin on this opening', 'sin aletas en este vano'], noLip: ['no lip on this opening', 'sin labio en este vano'],
  cutting: ['Cutting buys: %s', 'Cortar da: %s'], lost: ['hatched: glass lost', 'rayado: vidrio perdido'],
  'part opening': ['What it is', 'Qué es'], 'part unit': ['One unit of several', 'Una unidad de varias'], 'part shape': ['Shape', 'Forma'], 'part there now': ['The old window', 'La ventana vieja'], 'part pocket': ['Pocket, fins, lip', 'Hueco, aletas, labio'],
  'part shade': ['Shade', 'Sombra'], 'part safety': ['Safety', 'Seguridad'], 'part options': ['Options of the new one', 'Opciones de la nueva'], 'part work': ['Plan of the work', 'Plan del trabajo'], 'part sound': ['Sound', 'Sonido'], 'part air': ['Air', 'Aire'],
  'part job': ['The job', 'El trabajo'], 'part place': ['The place', 'El lugar'], 'part house': ['The house', 'La casa'], 'part systems': ['Heating and cooling', 'Calefacción y enfriamiento'], 'part bills': ['Bills and money', 'Recibos y dinero'], 'part order': ['The order', 'El pedido'],
  'part papers': ['For the papers', 'Para los papeles'], 'part offer': ['The offer', 'La oferta'], 'part package': ['The package', 'El paquete'], 'part glass': ['Glass', 'Vidrio'], 'part frame': ['Frame', 'Marco'], 'part label': ['Certified label', 'Etiqueta certificada'], 'part price': ['Prices', 'Precios'], 'part own': ['Of your own', 'Propias'],
  room: ['room', 'cuarto'], tag: ['tag', 'etiqueta'], quantity: ['how many', 'cuántas'], facing: ['faces', 'mira al'], operator: ['kind', 'tipo'],
  config: ['lites, X moves', 'hojas, X se mueve'], sill_height: ['sill above the floor', 'alféizar sobre el piso'], use: ['use of the room', 'uso del cuarto'],
  tapWord: ['Tap a word to change it; the figures are of all openings together, as installed.',
    'Toque una palabra para cambiarla; las cifras son de todos los vanos juntos, ya instalados.'],
  codeHere: ['code here: %s', 'código aquí: %s'], uvalue: ['heat leak U', 'fuga de calor U'], shgc: ['sun heat SHGC', 'calor del sol SHGC'],
  vt: ['daylight VT', 'luz VT'], glassKept: ['glass kept', 'vidrio que queda'], lightKept: ['daylight kept', 'luz que queda'], code: ['code', 'código'], price: ['price installed', 'precio instalado'],
  addPackage: ['Another package', 'Otro paquete'], removePackage: ['Remove this package', 'Quitar este paquete'], labels: ['Label, prices and the rest', 'Etiqueta, precios y lo demás'],
  rim: ['rim', 'borde'], frame: ['frame', 'marco'], filling: ['filling behind it', 'relleno detrás'], build: ['%s rim, %s frame, %s behind it.', 'borde: %s, marco: %s, detrás: %s.'], of: ['of', 'de'], with: ['with', 'con'], typeIt: ['or type it', 'o escríbalo'], pictureUnit: ['Picture of the unit', 'Imagen de la unidad'],
  plain: ['no coating', 'ninguna capa'], onIts: ['on its', 'en su'], innerFace: ['inner face', 'cara interior'], outerFace: ['outer face', 'cara exterior'],
  sure: ['How sure', 'Qué tan seguro'], working: ['Computing the range in the background', 'Calculando el rango en segundo plano'], cancel: ['Cancel', 'Cancelar'], rangeAgain: ['Compute the range', 'Calcular el rango'],
  ranged: ['With ranges of 8 in 10.', 'Con rangos de 8 en 10.'], stale: ['The job has changed since the range was computed.', 'El trabajo cambió desde que se calculó el rango.'],
  whatIf: ['What if', '¿Y si?'], whatIfHow: ['Leave an opening out or give it another package; nothing is kept until you say so.',
    'Deje un vano fuera o déle otro paquete; nada se guarda hasta que usted lo diga.'], asNow: ['as it is', 'como está'], leaveOut: ['leave it as it is now', 'dejarlo como está'],
  keepThis: ['Keep this', 'Guardar esto'], dropThis: ['Drop it', 'Descartar'], nowCol: ['in the job', 'en el trabajo'], ifCol: ['if so', 'si es así'], savedYear: ['saved a year', 'ahorro al año'],
  why: ['Why these figures', 'Por qué estas cifras'], waiting: ['The program is at work ...', 'El programa trabaja ...'],
  paperList: ['The papers of this job', 'Los papeles de este trabajo'], print: ['Print', 'Imprimir'], letter: ['letter', 'carta'], a4: ['A4', 'A4'], saveCsv: ['Save %s', 'Guardar %s'], ready: ['ready', 'listo'], ofPackage: ['of the package', 'del paquete'],
  customer: ['Customer’s sheet', 'Hoja del cliente'], measure: ['Measuring form', 'Formulario de medidas'], order: ['Order to the maker', 'Pedido al fabricante'], crew: ['Crew’s day', 'Día del equipo'],
  materials: ['Materials', 'Materiales'], offer: ['Offer', 'Oferta'], handover: ['Hand-over', 'Entrega'],
  showLight: ['How much light stays', 'Cuánta luz queda'], showSweat: ['When it sweats', 'Cuándo se empaña'],
  showHeat: ['How heat leaks', 'Cómo se fuga el calor'], showCost: ['What a year saves', 'Qué ahorra un año'], showRests: ['What it rests on', 'En qué se apoya'], thereNow: ['there now', 'la de ahora'],
  glassAt: ['The glass is at %s now. It would be at %s.', 'El vidrio está a %s ahora. Estaría a %s.'], outsideAt: ['A cold night here, %s outside', 'Una noche fría aquí, %s afuera'],
  sweatsAbove: ['sweats when the room is above %s humid', 'se empaña cuando el cuarto pasa de %s de humedad'], keepsLight: ['Of the daylight %s stays, of the glass %s.', 'De la luz queda %s, del vidrio %s.'],
  leaks: ['The heat-leak number is %s now. It would be %s.', 'El número de fuga de calor es %s ahora. Sería %s.'], lower: ['Lower keeps more heat in.', 'Más bajo guarda más calor.'],
  seePrice: ['See the price', 'Ver el precio'], hidePrice: ['Hide the price', 'Ocultar el precio'], noRating: ['computed as installed, not a certified rating', 'calculado ya instalado, no es una calificación certificada'],
  page: ['%s of %s', '%s de %s'], before: ['back', 'anterior'], units: ['Units', 'Unidades'], inches: ['inches', 'pulgadas'], metric: ['metric', 'métrico'], language: ['Language', 'Idioma'],
  licences: ['What is built in', 'Lo que va dentro'], item: ['item', 'dato'], dwelling: ['dwelling', 'vivienda'], saving: ['saving', 'ahorro'], fullScreen: ['Full screen', 'Pantalla completa'],
  climate: ['place: ZIP code or town', 'lugar: código postal o ciudad'], floor_area: ['floor', 'superficie'], year_built: ['built', 'construida'], storeys: ['storeys', 'pisos'],
  heating: ['heating', 'calefacción'], heating_fuel: ['heated by', 'calienta con'], heating_efficiency: ['its efficiency', 'su eficiencia'], cooling: ['cooling', 'enfriamiento'], cooling_efficiency: ['its efficiency', 'su eficiencia'],
  heat_set: ['heated to', 'se calienta a'], cool_set: ['cooled to', 'se enfría a'], price_electricity: ['price of electricity', 'precio de la electricidad'], price_gas: ['price of gas', 'precio del gas'], bill_year: ['bill of a year', 'recibo de un año'],
  customerItem: ['customer', 'cliente'], jobName: ['name of the job', 'nombre del trabajo'], moreItems: ['All items of the job', 'Todos los datos del trabajo'], taken: ['Taken: %s', 'Se toma: %s'],
  change: ['Change order', 'Cambio de pedido'], worksheet: ['Rebate worksheet', 'Hoja del reembolso'], paperSize: ['paper', 'papel'], noRanges: ['Without ranges, and it says so.', 'Sin rangos, y así lo dice.'],
  sentLacks: ['Needs the order that was sent.', 'Necesita el pedido que se envió.'], sentThere: ['Held against the order that was sent.', 'Comparado con el pedido que se envió.'], takeSent: ['Take that order (CSV)', 'Tomar ese pedido (CSV)'],
  keepSent: ['Keep as the order that was sent', 'Guardar como el pedido enviado'], program: ['of the program', 'del programa'], zone: ['its zone', 'su zona'], takeProgram: ['Take another program (CSV)', 'Tomar otro programa (CSV)'],
  showSun: ['How much of the sun comes in', 'Cuánto sol entra'], sunIn: ['The sun-heat number is %s now. It would be %s.', 'El número de calor del sol es %s ahora. Sería %s.'], lessSun: ['Lower lets less of the sun’s heat in, in summer and in winter. (SHGC)', 'Más bajo deja entrar menos calor del sol, en verano y en invierno. (SHGC)'],
  package: ['package', 'paquete'], kind: ['kind', 'tipo'], options: ['options', 'opciones'], u: ['U', 'U'], air_leakage: ['air leakage', 'fuga de aire'], certificate: ['certificate', 'certificado'],
  size_from: ['size from', 'medida desde'], size_to: ['size to', 'medida hasta'], per_opening: ['per opening', 'por vano'], per_area: ['per area', 'por área'], per_job: ['per job', 'por trabajo'],
  moveUp: ['Earlier in the walk', 'Antes en el recorrido'], moveDown: ['Later in the walk', 'Después en el recorrido'],
  files: ['Files of the job', 'Archivos del trabajo'], filesHow: ['An hourly weather file, a tariff, a drawn section: put it here and name it in its item or column.', 'Un archivo de clima por horas, una tarifa, una sección dibujada: póngalo aquí y nómbrelo en su dato o columna.'], addFile: ['Take a file in', 'Tomar un archivo'], saveOne: ['Save', 'Guardar'],
  payback: ['years until it is paid', 'años hasta pagarse'], worth: ['worth over its life', 'valor en su vida útil'], sound: ['sound', 'sonido'], tightness: ['tightness', 'hermeticidad'], airing: ['open windows', 'ventanas abiertas'], coverings: ['drapes and blinds', 'cortinas y persianas'], ducts: ['ducts', 'ductos'],
  removeRow: ['Remove row', 'Quitar la fila'], places_like: ['Places of that name', 'Lugares con ese nombre'],
  labelList: ['Labels of the maker', 'Etiquetas del fabricante'], addLabel: ['Another label', 'Otra etiqueta'],
  labelHow: ['Certified values as the maker’s label says, by package, kind and options; the code asks for them.', 'Valores certificados como dice la etiqueta del fabricante, por paquete, tipo y opciones; el código los pide.'],
  priceList: ['Price list', 'Lista de precios'], addPrice: ['Another price', 'Otro precio'], pricesNow: ['Now', 'Ahora'],
  priceHow: ['A row a price: by package, kind and size of the window, or of an item such as permit, disposal, tax. With a list the prices in the packages fall silent.', 'Una fila por precio: según paquete, tipo y tamaño de la ventana, o de un concepto como permiso, desecho, impuesto. Con una lista, los precios de los paquetes no cuentan.'],
  bills: ['The house’s own bills', 'Los recibos de la casa'], addBill: ['Another bill', 'Otro recibo'], takeFeed: ['Take the utility’s file (XML)', 'Tomar el archivo de la compañía (XML)'],
  billsHow: ['A year of bills or more, with the weather of their own days, narrows the range of what is saved.', 'Un año o más de recibos, con el clima de sus propios días, reduce el margen de lo que se ahorra.'],
  weatherLacks: ['The weather of those days is not here yet.', 'El clima de esos días aún no está aquí.'], weatherThere: ['The weather of those days is here.', 'El clima de esos días está aquí.'],
  takeWeather: ['Take a file of daily weather', 'Tomar un archivo de clima diario'], weatherAnew: ['Take another', 'Tomar otro'], weatherAway: ['Take it out', 'Quitarlo'],
  billsPicture: ['Picture of the bills', 'Imagen de los recibos'], firmFile: ['Your firm', 'Su empresa'], firmHow: ['For the head of each paper, kept with this job.', 'Para el encabezado de cada papel, guardado con este trabajo.'],
  fuel: ['fuel', 'combustible'], from: ['from', 'desde'], to: ['to', 'hasta'], amount: ['amount', 'cantidad'], unit: ['unit', 'unidad'], cost: ['cost', 'costo'], read: ['read', 'lectura'],
  'part measures': ['Readings', 'Lecturas'], 'part bill': ['The bill', 'El recibo'], 'part rare': ['Rare', 'Raro'], 'part which': ['Which windows', 'Cuáles ventanas'], 'part firm': ['The firm', 'La empresa'],
  saveFolder: ['Save to a folder', 'Guardar en una carpeta'],
};

export const LANGUAGES = [['en', 'English'], ['es', 'Español']];

let index = 0;

export function setLanguage(code) {
  index = Math.max(0, LANGUAGES.findIndex(([c]) => c === code));
}

export function has(key) {
  return Object.hasOwn(WORDS, key);
}

/* The words of a key, each %s filled in turn; the key itself where there are none (names of columns and items). */
export function say(key, ...with_) {
  const text = has(key) ? WORDS[key][index] : key.replaceAll('_', ' ');
  return with_.length ? text.replace(/%s/g, () => with_.shift() ?? '') : text;
}

export const allWords = WORDS;

/**
 * Sentences in other registers than those the words were tuned on: text messages, old people telling it their way, very
 * few words. All invented, written before the words were tuned and counted once after it; nothing was tuned on them.
 */
type Texted = Readonly<Record<'en' | 'es', Readonly<Record<string, readonly string[]>>>>;

export const texted: Texted = {
  en: {
    shock: [
      'omg just got electrocuted by the sink lol not funny',
      'I get a little jolt, dear, whenever I rinse the cups',
      'tap live. hand tingles',
    ],
    burning: [
      'pump box smoking!!',
      'theres a burny smell by the pump n its well hot',
      'I do believe something is on fire in the pump cupboard, I can see a glow',
    ],
    'wet-electrics': [
      'water in fuse box',
      'socket by pump soaking wet wot do i do',
      'The rain has been running in on the electric meter cupboard, I am afraid',
    ],
    flooded: ['cellar flooded', 'pump room like a swimming pool rn, water up 2 my shins'],
    burst: [
      'pipe burst!!!',
      'water spraying evrywhere under sink cant stop it',
      'The pipe to the scullery has given up the ghost and it is pouring through the floorboards',
    ],
    scalding: ['tap water boiling, burnt my fingers', 'The hot water fairly scalds one these days'],
    'vessel-damaged': [
      'tank bulging',
      'rust hole in pressure tank, hissing',
      'That round tank by the pump has swelled up like a football, I do not care for the look of it',
    ],
    'uv-exposed': ['uv lamp smashed glass evrywhere', 'looked at uv bulb, eyes killing me'],
    'chemical-exposure': [
      'bleach in eyes help',
      'kid drank chlorine',
      'I came over quite faint from the fumes when I poured the chlorine',
    ],
    'fuel-smell': ['water smells of diesel', 'tastes like petrol tbh'],
    'sewage-smell': [
      'water stinks of sewage ewww',
      'There is a smell of the privy about the water',
    ],
    illness: ['all got the squits', 'The whole family has been taken bad with their stomachs'],
  },
  es: {
    shock: [
      'el grifo me dio corriente ayuda',
      'al fregar los platos me da como un latigazo en los dedos',
      'la ducha da toques',
    ],
    burning: [
      'huele a kemado la bomba',
      'sale humito del motor q hago',
      'Mire usted, que en la caseta se ve un resplandor y huele a goma quemada',
    ],
    'wet-electrics': [
      'enchufe mojado',
      'hay agua en la caja de fusibles',
      'Con la lluvia se me ha calado el contador de la luz, hijo',
    ],
    flooded: ['sotano inundado', 'la caseta está llena de agua, me llega al tobillo'],
    burst: [
      'tubería rota agua x todas partes',
      'se rebentó el caño',
      'La cañería ha dicho basta y cae el agua por el techo a mares',
    ],
    scalding: ['agua hirviendo en la ducha', 'sale tan caliente que pela las manos'],
    'vessel-damaged': [
      'calderín hinchado',
      'tanque de presión oxidado con agujero',
      'Ese bidón redondo que hay junto a la bomba se ha puesto gordo y hace sss',
    ],
    'uv-exposed': ['lámpara uv rota', 'miré el tubo uv encendido y me lloran los ojos'],
    'chemical-exposure': [
      'cloro en los ojos',
      'mi nene tomó lavandina',
      'Me mareé con los vapores al echar el cloro',
    ],
    'fuel-smell': ['el agua huele a gasoil', 'sabe como a keroseno'],
    'sewage-smell': ['agua con olor a caño podrido de cloaca', 'huele a retrete el agua'],
    illness: ['todos con cagalera', 'Andamos todos malos del vientre, hasta los nietos'],
  },
};

/** The same registers, and no danger. */
export const textedHarmless: Readonly<Record<'en' | 'es', readonly string[]>> = {
  en: [
    'water brown again ugh',
    'no pressure upstairs since tues',
    'The kettle furs up something dreadful',
    'filter change when??',
    'pump noisy 2nite',
    'My late husband always saw to the pump, I do not know where the switch is',
    'smells eggy',
    'uv light gone out, new 1 needed?',
    'The water used to be so nice for tea, now it is like a swimming bath',
    'tap drip drip drip',
  ],
  es: [
    'agua marrón otra vez',
    'no hay presión arriba',
    'La cafetera se me llena de cal, hija',
    'cuando cambio el filtro?',
    'bomba hace ruido x la noche',
    'Mi difunto marido entendía de la bomba, yo no sé ni dónde se enchufa',
    'huele a huevo',
    'se apagó la luz uv, compro otra?',
    'Antes el agua era buenísima, ahora sabe a piscina',
    'gotea el grifo',
  ],
};

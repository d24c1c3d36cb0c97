/** A VIN as it is compared: written large, without blanks around it. */
export const vinMark = (vin: string): string => vin.trim().toUpperCase()

/** A plate as it is compared: written large, whatever parts its groups. */
export const plateMark = (plate: string): string => plate.replaceAll(/[\s-]+/g, '').toUpperCase()

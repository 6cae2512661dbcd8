namespace ServiceRules.Domain.Quantities;

/// <summary>A unit in which a length may be printed or spoken.</summary>
public enum LengthUnit
{
    /// <summary>Millimetre, printed <c>mm</c>.</summary>
    Millimetre,

    /// <summary>Micrometre, printed <c>µm</c>; exactly 0.001 mm.</summary>
    Micrometre,

    /// <summary>Inch, printed <c>in</c>; exactly 25.4 mm.</summary>
    Inch,

    /// <summary>Thousandth of an inch, printed <c>thou</c>; exactly 0.0254 mm.</summary>
    Thousandth,
}

namespace ServiceRules.Domain.Quantities;

/// <summary>A unit in which a pressure gauge may read.</summary>
public enum PressureUnit
{
    /// <summary>Bar, printed <c>bar</c>; exactly 100 kPa.</summary>
    Bar,

    /// <summary>Kilopascal, printed <c>kPa</c>.</summary>
    Kilopascal,

    /// <summary>Pound-force per square inch, printed <c>psi</c>; about 6.895 kPa.</summary>
    PoundPerSquareInch,
}

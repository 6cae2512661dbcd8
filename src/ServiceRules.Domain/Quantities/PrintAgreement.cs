namespace ServiceRules.Domain.Quantities;

/// <summary>Whether the two figures of a dual print can be roundings of one length.</summary>
public enum PrintAgreement
{
    /// <summary>There is only one figure, so nothing to compare.</summary>
    Single,

    /// <summary>The rounding intervals of the two figures overlap, and the figures lie within 5 %.</summary>
    Agrees,

    /// <summary>The rounding intervals overlap, but the alternate lies more than 5 % from the governing figure.</summary>
    AgreesWithNotice,

    /// <summary>No length rounds to both figures: one of them is wrong.</summary>
    Disagrees,
}

namespace ServiceRules.Domain.Remedies;

/// <summary>In which direction the last movement of each side must go, as the limit sheet says.</summary>
public enum Approach
{
    /// <summary>Either way.</summary>
    Either,

    /// <summary>Every side that was turned is finished opening (or raising).</summary>
    Opening,

    /// <summary>Every side that was turned is finished closing (or lowering).</summary>
    Closing,
}

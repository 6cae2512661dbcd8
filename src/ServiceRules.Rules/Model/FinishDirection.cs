namespace ServiceRules.Rules.Model;

/// <summary>The last movement of each side.</summary>
public enum FinishDirection
{
    /// <summary>Either way.</summary>
    Either,

    /// <summary>Finished opening (or raising).</summary>
    Opening,

    /// <summary>Finished closing (or lowering).</summary>
    Closing,
}

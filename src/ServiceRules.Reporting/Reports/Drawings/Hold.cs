namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>What an event does to the hold on an energy source.</summary>
public enum Hold
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>The source is being isolated, secured or relieved.</summary>
    Taken,

    /// <summary>The hold is proven.</summary>
    Proven,

    /// <summary>The source comes back.</summary>
    Given,
}

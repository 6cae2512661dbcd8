namespace ServiceRules.Reporting.Reports.Words;

/// <summary>The trade has two names for the same parts; a site reads its own.</summary>
public enum TradeWords
{
    /// <summary>Reel, bedknife.</summary>
    Reel,

    /// <summary>Cylinder, bottom blade.</summary>
    Cylinder,
}

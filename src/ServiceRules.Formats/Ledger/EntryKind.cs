namespace ServiceRules.Formats.Ledger;

/// <summary>What an entry of the log is about.</summary>
public enum EntryKind
{
    /// <summary>A service record, or an open one further on.</summary>
    Record,

    /// <summary>A record that corrects an earlier version of itself.</summary>
    Amendment,

    /// <summary>What judging a record came to.</summary>
    Assessment,

    /// <summary>A signed report.</summary>
    Report,

    /// <summary>Settings in force from a day on.</summary>
    SettingOrder,

    /// <summary>Rules that came into force.</summary>
    PackActivation,

    /// <summary>A dated loosening of one rule.</summary>
    Waiver,

    /// <summary>A person was forgotten.</summary>
    Erasure,

    /// <summary>Something was done that only some may do: to accounts, keys or settings of the service.</summary>
    Act,

    /// <summary>What is to be kept whatever falls due, or that it no longer is.</summary>
    Hold,

    /// <summary>How long contents are kept.</summary>
    Retention,

    /// <summary>Contents were removed because their time was over, or given up since they were lost.</summary>
    Expiry,

    /// <summary>What somebody who oversees says of a record.</summary>
    Comment,
}

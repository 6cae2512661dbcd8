namespace ServiceRules.Domain.Records;

/// <summary>When a reading was taken relative to the work. Absent: told from what was turned before and after.</summary>
public enum ReadingPhase
{
    /// <summary>Before anything was turned.</summary>
    Found,

    /// <summary>Between adjustments.</summary>
    Between,

    /// <summary>After the last adjustment.</summary>
    Left,
}

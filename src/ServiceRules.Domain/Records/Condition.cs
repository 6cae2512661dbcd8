namespace ServiceRules.Domain.Records;

/// <summary>A condition judged by eye or hand.</summary>
public enum Condition
{
    /// <summary>As it should be.</summary>
    Sound,

    /// <summary>Not as it should be.</summary>
    Faulty,
}

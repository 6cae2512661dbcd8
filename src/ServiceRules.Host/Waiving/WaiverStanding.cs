namespace ServiceRules.Host.Waiving;

/// <summary>Whether a waiver counts.</summary>
internal enum WaiverStanding
{
    /// <summary>Of jobs of its days.</summary>
    Counts,

    /// <summary>Somebody withdrew it.</summary>
    Withdrawn,

    /// <summary>Its content was erased, with everything that named somebody in it.</summary>
    Erased,
}

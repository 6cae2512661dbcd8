namespace ServiceRules.Domain.Records;

/// <summary>What a paper strip did between a blade and the bedknife at a station.</summary>
public enum PaperResult
{
    /// <summary>Cut clean.</summary>
    Cuts,

    /// <summary>Held without being cut.</summary>
    Nips,

    /// <summary>Not touched.</summary>
    Misses,
}

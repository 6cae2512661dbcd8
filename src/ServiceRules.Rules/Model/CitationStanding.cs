namespace ServiceRules.Rules.Model;

/// <summary>How a cited text is known to whoever wrote the citation.</summary>
public enum CitationStanding
{
    /// <summary>The public text was read.</summary>
    TextRead,

    /// <summary>A secondary source or a catalogue page was read.</summary>
    SecondaryRead,

    /// <summary>From memory: to be checked before it is relied on.</summary>
    FromMemory,
}

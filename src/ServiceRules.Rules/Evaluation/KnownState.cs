namespace ServiceRules.Rules.Evaluation;

/// <summary>How a place's knowledge stands.</summary>
public enum KnownState
{
    /// <summary>Nothing disturbed it since.</summary>
    Fresh,

    /// <summary>Disturbed by a stated amount: carried with that much more doubt.</summary>
    Carried,

    /// <summary>A later adjustment made it void: check again.</summary>
    Stale,

    /// <summary>Its readings contradict one another.</summary>
    Conflicting,
}

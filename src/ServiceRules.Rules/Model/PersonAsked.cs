namespace ServiceRules.Rules.Model;

/// <summary>What a rule asks of whoever made a step or signed, each of these more than the one before.</summary>
public enum PersonAsked
{
    /// <summary>The register of people has them.</summary>
    Known,

    /// <summary>The register has them as authorised, by a training that holds on that day.</summary>
    Authorised,
}

namespace ServiceRules.Domain.Verdicts;

/// <summary>What a rule does when it cannot be decided.</summary>
public enum UnprovenPolicy
{
    /// <summary>Keeps the subject in (a hold, or a stop on an open job where hands go in next).</summary>
    Hold,

    /// <summary>Only says so.</summary>
    Advise,

    /// <summary>Keeps it in unless a named second person releases it with a reason.</summary>
    SecondPerson,
}

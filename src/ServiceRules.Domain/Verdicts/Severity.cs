namespace ServiceRules.Domain.Verdicts;

/// <summary>How serious a breach of a rule is.</summary>
public enum Severity
{
    /// <summary>Good to know.</summary>
    Advise,

    /// <summary>Work is not good enough to go out.</summary>
    Hold,

    /// <summary>Someone could be hurt.</summary>
    Stop,
}

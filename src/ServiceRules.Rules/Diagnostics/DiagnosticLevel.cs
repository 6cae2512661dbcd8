namespace ServiceRules.Rules.Diagnostics;

/// <summary>How much a diagnostic weighs.</summary>
public enum DiagnosticLevel
{
    /// <summary>Worth a look; the rules load.</summary>
    Notice,

    /// <summary>The rules do not load until it is put right.</summary>
    Error,
}

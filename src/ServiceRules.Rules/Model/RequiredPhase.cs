namespace ServiceRules.Rules.Model;

/// <summary>Which phase of reading must be there.</summary>
public enum RequiredPhase
{
    /// <summary>As found.</summary>
    Found,

    /// <summary>As left.</summary>
    Left,
}

namespace ServiceRules.Rules.Model;

/// <summary>Where in the timeline a required step must stand.</summary>
public enum RequiredWhen
{
    /// <summary>Before the first hands-on work (of that person, where it is per person).</summary>
    BeforeWork,

    /// <summary>After the last hands-on work.</summary>
    AfterWork,
}

namespace ServiceRules.Rules.Model;

/// <summary>Kinds of ground.</summary>
public enum BasisKind
{
    /// <summary>A published source.</summary>
    Published,

    /// <summary>The unit's own manual, transcribed by the owner.</summary>
    Manual,

    /// <summary>The site's policy.</summary>
    SitePolicy,

    /// <summary>Common practice, no source.</summary>
    CommonPractice,

    /// <summary>From memory.</summary>
    FromMemory,

    /// <summary>Derived by algebra or geometry from sourced facts.</summary>
    Derived,

    /// <summary>A duty of safe work in neutral words; local codes come first.</summary>
    Duty,
}

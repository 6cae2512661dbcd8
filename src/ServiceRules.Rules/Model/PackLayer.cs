namespace ServiceRules.Rules.Model;

/// <summary>Layers, lowest first. A site pack may tighten or add, never loosen.</summary>
public enum PackLayer
{
    /// <summary>The trade.</summary>
    Base,

    /// <summary>The law and guidance of a place.</summary>
    Jurisdiction,

    /// <summary>The site's own.</summary>
    Site,
}

namespace ServiceRules.Application.Due;

/// <summary>What says that something falls due. The numbers are kept and stay.</summary>
public enum DueSource
{
    /// <summary>The register of the site says the day.</summary>
    Register = 0,

    /// <summary>The rules in force say within which time, and the register when it was done last.</summary>
    Rules = 1,

    /// <summary>A stored record says the day.</summary>
    Record = 2,

    /// <summary>It is reckoned from the stored records of the unit.</summary>
    History = 3,
}

namespace ServiceRules.Domain.Site;

/// <summary>For whom a person works.</summary>
public enum Employer
{
    /// <summary>For the site.</summary>
    Site,

    /// <summary>For an outside firm.</summary>
    Outside,
}

namespace ServiceRules.Domain.Site;

/// <summary>The two schools of setting reel to bedknife. Heavy contact is a fault in both.</summary>
public enum ContactSchool
{
    /// <summary>Nothing touches; the gap is held by feelers.</summary>
    AirGap,

    /// <summary>Light contact, heard and felt over the full width.</summary>
    LightContact,
}

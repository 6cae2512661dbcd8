namespace ServiceRules.Domain.Records;

/// <summary>In what setting the work was done.</summary>
public enum WorkSetting
{
    /// <summary>In the workshop: the machine is there to be worked on.</summary>
    Workshop,

    /// <summary>While the machine is used on turf.</summary>
    InUse,
}

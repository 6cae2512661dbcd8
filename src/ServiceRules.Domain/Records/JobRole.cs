namespace ServiceRules.Domain.Records;

/// <summary>What a person did in this job.</summary>
public enum JobRole
{
    /// <summary>Did the work.</summary>
    Performs,

    /// <summary>Helped with hands in reach of the unit.</summary>
    Assists,

    /// <summary>Leads the shop; signs releases.</summary>
    Leads,

    /// <summary>Uses the machine or works where it stands; told, not protected by a lock.</summary>
    Affected,

    /// <summary>Looks after safety.</summary>
    Officer,
}

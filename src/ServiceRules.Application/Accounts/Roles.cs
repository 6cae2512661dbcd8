namespace ServiceRules.Application.Accounts;

/// <summary>What somebody may do. Several may be given; what each of them opens stands in one table of the service.</summary>
[Flags]
public enum Roles
{
    None = 0,

    /// <summary>Judges and submits, and reads what names the person.</summary>
    Technician = 1,

    /// <summary>All of the site: reads, amends, exports.</summary>
    Lead = 2,

    /// <summary>Reads all and checks it.</summary>
    Officer = 4,

    /// <summary>Accounts and keys, and no records.</summary>
    Administrator = 8,

    All = Technician | Lead | Officer | Administrator,
}

namespace ServiceRules.Application.Accounts;

/// <summary>Somebody who signs in, with a name and a password or elsewhere.</summary>
/// <param name="Id">Drawn when it is made, and no part of the name: what is told of acts names it by this.</param>
/// <param name="Name">What is typed at sign-in, and what pages call them.</param>
/// <param name="PlainName">The name as names are compared: no two accounts have the same.</param>
/// <param name="Roles">At least one.</param>
/// <param name="MadeAt">When it was made.</param>
public sealed record Account(string Id, string Name, string PlainName, Roles Roles, DateTimeOffset MadeAt)
{
    /// <summary>The person of the register that it stands for.</summary>
    public string? Person { get; init; }

    /// <summary>Of which site it is, see <see cref="GrantedSite"/>; null: there was one when it was made.</summary>
    public string? Site { get; init; }

    /// <summary>Under what another place knows whoever signs in there; null: they sign in here, with a password.</summary>
    public Elsewhere? Elsewhere { get; init; }

    /// <summary>The password as it is kept: salted, and dear to try.</summary>
    public string? Password { get; init; }

    /// <summary>Another one ends every session.</summary>
    public string Stamp { get; init; } = "";

    /// <summary>Wrong passwords in a row.</summary>
    public int Failures { get; init; }

    /// <summary>Until when nobody signs in, after too many of them.</summary>
    public DateTimeOffset? LockedUntil { get; init; }

    /// <summary>Whether an administrator locked it.</summary>
    public bool IsLocked { get; init; }

    /// <summary>Whether the password was given by somebody else, and is changed before anything else.</summary>
    public bool MustChange { get; init; }

    /// <summary>Counts its changes, so that of two at once one is refused.</summary>
    public long Version { get; init; }
}

using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Accounts;

/// <summary>What a form says of roles and people.</summary>
internal static class Given
{
    public static Roles Roles(IFormCollection form) => RoleWords.Read((IEnumerable<string?>)form["role"]);

    public static string? Site(IFormCollection form) =>
        form["site"].ToString() is { Length: > 0 } site ? site : null;

    /// <summary>What the provider calls somebody; null: they sign in here.</summary>
    public static string? Elsewhere(IFormCollection form) =>
        form["elsewhere"].ToString().Trim() is { Length: > 0 } called ? called : null;

    public static string? Person(IFormCollection form) =>
        form["person"].ToString() is { Length: > 0 } person ? person : null;
}

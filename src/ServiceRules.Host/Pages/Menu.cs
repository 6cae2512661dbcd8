using Microsoft.AspNetCore.Http;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Pages;

/// <summary>A way to a page.</summary>
public sealed record MenuWay(string Place, string Name, string About)
{
    /// <summary>Whether it leads on only who sees every site.</summary>
    public bool IsOfEverySite { get; init; }
}

/// <summary>The ways that are open to whoever asks, by the table of access.</summary>
internal static class Menu
{
    private static readonly MenuWay[] Ways =
    [
        new("/bench", "Bench", "Begin a job, judge and submit a record"),
        new("/records", "Records", "What is filed"),
        new("/due", "Due", "What falls due"),
        new("/files", "Files", "Signed reports of a period, and lists as files"),
        new("/holds", "Holds", "What is kept from being erased") { IsOfEverySite = true },
        new("/rules", "Rules", "Which rules judge, since when, and by whose act"),
        new("/waivers", "Waivers", "Rules that are loosened for a time"),
        new("/notices", "Notices", "Who is told of holds and stops, and who was not reached"),
        new("/verify", "Verify", "Verify a signed report"),
        new("/people", "People", "Accounts"),
        new("/keys", "Keys", "Keys of programs"),
        new("/acts", "Acts", "What was done to accounts, keys, rules and notices"),
        new("/api", "Interface", "What programs can ask"),
        new("/account", "Account", "Your account"),
    ];

    public static IReadOnlyList<MenuWay> Of(HttpContext? context)
    {
        var caller = context is null ? null : Caller.Of(context.User);
        return
        [
            .. Ways.Where(way =>
                AccessTable.Opens("GET", way.Place, caller)
                && (!way.IsOfEverySite || caller?.SeesEverySite is true)
            ),
            .. caller is null ? new[] { new MenuWay(AccountServices.SignInPlace, "Sign in", "") } : [],
        ];
    }
}

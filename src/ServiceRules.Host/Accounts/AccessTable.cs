using System.Collections.Frozen;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Accounts;

/// <summary>
/// Who may do what: every route of the service stands here, and one that does not is open to nobody. Which records somebody sees
/// of those that a route shows is asked of <see cref="Caller.Sees"/>.
/// </summary>
internal static class AccessTable
{
    private const string Get = "GET";
    private const string Post = "POST";

    private const Roles Readers = Roles.Technician | Roles.Lead | Roles.Officer;
    private const Roles Senders = Roles.Technician | Roles.Lead;
    private const Roles Overseers = Roles.Lead | Roles.Officer;

    private static readonly Access[] All =
    [
        // For whoever is not known yet, and for what looks whether the service lives.
        new(Get, "/style.css", null),
        new(Get, "/icon.svg", null),
        new(Get, "/sign-in", null),
        new(Post, "/sign-in", null),
        new(Get, "/sign-in/elsewhere", null),
        new(Get, "/sign-in/elsewhere/back", null),
        new(Get, "/first-administrator", null),
        new(Post, "/first-administrator", null),
        new(Get, "/api", null),
        new(Get, "/openapi/v1.json", null),
        new(Access.AnyMethod, "/health/live", null),
        new(Access.AnyMethod, "/health/ready", null),
        // One's own account.
        new(Get, "/", Roles.All),
        new(Get, "/account", Roles.All) { BeforeChange = true },
        new(Post, "/account/password", Roles.All) { BeforeChange = true },
        new(Post, "/account/sign-out", Roles.All) { BeforeChange = true },
        // Records.
        new(Post, "/api/judgements", Readers),
        new(Post, "/api/records", Senders),
        new(Post, "/api/records/{id}/amendments", Roles.Lead),
        new(Get, "/api/records", Readers),
        new(Get, "/api/records/{id}", Readers),
        new(Get, "/api/records/{id}/report", Readers),
        new(Get, "/api/records/{id}/report/proof", Readers),
        new(Post, "/api/records/{id}/comments", Overseers),
        new(Get, "/api/holds", Overseers),
        new(Post, "/api/holds", Overseers),
        new(Post, "/api/holds/{id}/lift", Overseers),
        new(Get, "/api/units", Overseers),
        new(Get, "/api/findings", Overseers),
        new(Get, "/api/exports/records.csv", Overseers),
        new(Get, "/api/exports/records.jsonl", Overseers),
        new(Get, "/api/exports/units.csv", Overseers),
        new(Get, "/api/exports/units.jsonl", Overseers),
        new(Get, "/api/exports/findings.csv", Overseers),
        new(Get, "/api/exports/findings.jsonl", Overseers),
        new(Get, "/api/exports/documents.jsonl", Overseers),
        new(Post, "/api/exports", Overseers),
        new(Get, "/api/exports/{id}", Overseers),
        new(Get, "/api/exports/{id}/file", Overseers),
        new(Get, "/api/exports/{id}/proof", Overseers),
        new(Get, "/holds", Overseers),
        new(Post, "/holds", Overseers),
        new(Post, "/holds/{hold}/lift", Overseers),
        new(Get, "/files", Overseers),
        new(Post, "/files", Overseers),
        new(Get, "/api/notices", Roles.Lead | Roles.Administrator),
        new(Post, "/api/notices/{id}/retry", Roles.Lead | Roles.Administrator),
        new(Get, "/notices", Roles.Lead | Roles.Administrator),
        new(Post, "/notices/{id}/retry", Roles.Lead | Roles.Administrator),
        // What falls due; a technician sees what is about them, and gauges and procedures.
        new(Get, "/api/due", Readers),
        new(Get, "/due", Readers),
        new(Get, "/bench", Senders),
        new(Post, "/bench", Senders),
        new(Get, "/records", Readers),
        new(Get, "/records/{id}", Readers),
        new(Post, "/records/{id}/comments", Overseers),
        new(Post, "/records/{id}/holds", Overseers),
        new(Post, "/records/{id}/holds/{hold}/lift", Overseers),
        // What jobs rest on.
        new(Get, "/api/sites", Roles.All),
        new(Get, "/api/people", Roles.All),
        new(Get, "/api/machines", Readers),
        new(Get, "/api/instruments", Readers),
        new(Get, "/api/procedures", Readers),
        new(Get, "/api/packs", Readers),
        new(Post, "/api/packs", Roles.Lead),
        new(Post, "/api/packs/check", Overseers),
        new(Post, "/api/packs/{digest}/comparison", Overseers),
        new(Post, "/api/packs/{digest}/activation", Roles.Lead),
        new(Get, "/api/waivers", Readers),
        new(Post, "/api/waivers", Roles.Lead),
        new(Post, "/api/waivers/{id}/withdrawal", Roles.Lead),
        new(Get, "/waivers", Readers),
        new(Post, "/waivers", Roles.Lead),
        new(Post, "/waivers/{id}/withdrawal", Roles.Lead),
        new(Post, "/api/packs/{digest}/rejudging", Roles.Lead),
        new(Get, "/api/packs/{digest}/rejudging", Overseers),
        new(Get, "/rules", Readers),
        new(Post, "/rules", Roles.Lead),
        new(Post, "/rules/check", Overseers),
        new(Post, "/rules/comparison", Overseers),
        new(Post, "/rules/activation", Roles.Lead),
        new(Post, "/rules/rejudging", Roles.Lead),
        // What checks reports and the log.
        new(Get, "/api/certificate", Roles.All),
        new(Get, "/api/ledger/checkpoint", Roles.All),
        new(Get, "/api/ledger/key", Roles.All),
        new(Get, "/api/ledger/growth", Roles.All),
        new(Get, "/api/ledger/entries/{index:long}", Overseers),
        new(Get, "/api/ledger/entries/{index:long}/proof", Overseers),
        new(Post, "/api/verifications", Roles.All),
        new(Get, "/verify", Roles.All),
        new(Post, "/verify", Roles.All),
        // Accounts and keys.
        new(Get, "/people", Roles.Administrator),
        new(Post, "/people", Roles.Administrator),
        new(Post, "/people/{id}/roles", Roles.Administrator),
        new(Post, "/people/{id}/elsewhere", Roles.Administrator),
        new(Post, "/people/{id}/lock", Roles.Administrator),
        new(Post, "/people/{id}/unlock", Roles.Administrator),
        new(Post, "/people/{id}/reset", Roles.Administrator),
        new(Get, "/people/{id}/removal", Roles.Administrator),
        new(Post, "/people/{id}/remove", Roles.Administrator),
        new(Get, "/keys", Roles.Administrator),
        new(Post, "/keys", Roles.Administrator),
        new(Post, "/keys/{id}/revoke", Roles.Administrator),
        new(Get, "/acts", Roles.Administrator),
        new(Post, "/api/people/{id}/erasure", Roles.Administrator),
    ];

    private static readonly FrozenDictionary<(string, string), Access> ByRoute = All.ToFrozenDictionary(one =>
        (one.Method, one.Route)
    );

    /// <summary>Null where a route does not stand in it.</summary>
    public static Access? Of(string method, RouteEndpoint route)
    {
        var pattern = PatternOf(route);
        return ByRoute.GetValueOrDefault((MethodsOf(route) is [] ? Access.AnyMethod : method, pattern));
    }

    /// <summary>Whether a route is open to somebody.</summary>
    public static bool Opens(string method, string pattern, Caller? caller) =>
        ByRoute.GetValueOrDefault((method, pattern))?.Opens(caller) is true;

    /// <summary>The methods that a route takes; none: any.</summary>
    public static IReadOnlyList<string> MethodsOf(RouteEndpoint route) =>
        route.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods ?? [];

    /// <summary>The route as it stands in the table.</summary>
    public static string PatternOf(RouteEndpoint route) => "/" + (route.RoutePattern.RawText ?? "").Trim('/');
}

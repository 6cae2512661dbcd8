using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Tests.Accounts;

/// <summary>Every route as every role and as nobody, against a table written by hand.</summary>
public sealed class AccessTableTests(FiledShop shop) : IClassFixture<FiledShop>
{
    // What is sent is refused for itself where the role is let through (422), or good for nothing new (200).
    // nobody, technician who is named in the record, shop lead, officer, administrator, a key that opens nothing
    private const string Expected = """
        GET  /style.css                             200 200 200 200 200 200
        GET  /icon.svg                              200 200 200 200 200 200
        GET  /sign-in                               200 200 200 200 200 200
        POST /sign-in                               403 422 422 422 422 403
        GET  /sign-in/elsewhere                     404 404 404 404 404 404
        GET  /sign-in/elsewhere/back                404 404 404 404 404 404
        GET  /first-administrator                   200 200 200 200 200 200
        POST /first-administrator                   403 422 422 422 422 403
        GET  /api                                   200 200 200 200 200 200
        GET  /openapi/v1.json                       200 200 200 200 200 200
        GET  /health/live                           200 200 200 200 200 200
        GET  /health/ready                          200 200 200 200 200 200
        GET  /                                      302 200 200 200 200 401
        GET  /account                               302 200 200 200 200 401
        POST /account/password                      401 403 403 403 403 401
        POST /account/sign-out                      401 403 403 403 403 401
        POST /api/judgements                        401 422 422 422 403 401
        POST /api/records                           401 422 422 403 403 401
        POST /api/records/{id}/amendments           401 403 422 403 403 401
        GET  /api/records                           401 200 200 200 403 401
        GET  /api/records/{id}                      401 200 200 200 403 401
        GET  /api/records/{id}/report               401 200 200 200 403 401
        GET  /api/records/{id}/report/proof         401 200 200 200 403 401
        POST /api/records/{id}/comments             401 403 422 422 403 401
        GET  /api/holds                             401 403 200 200 403 401
        POST /api/holds                             401 403 422 422 403 401
        POST /api/holds/{id}/lift                   401 403 422 422 403 401
        GET  /api/units                             401 403 200 200 403 401
        GET  /api/findings                          401 403 200 200 403 401
        GET  /api/exports/records.csv               401 403 200 200 403 401
        GET  /api/exports/records.jsonl             401 403 200 200 403 401
        GET  /api/exports/units.csv                 401 403 200 200 403 401
        GET  /api/exports/units.jsonl               401 403 200 200 403 401
        GET  /api/exports/findings.csv              401 403 200 200 403 401
        GET  /api/exports/findings.jsonl            401 403 200 200 403 401
        GET  /api/exports/documents.jsonl           401 403 200 200 403 401
        POST /api/exports                           401 403 422 422 403 401
        GET  /api/exports/{id}                      401 403 404 404 403 401
        GET  /api/exports/{id}/file                 401 403 404 404 403 401
        GET  /api/exports/{id}/proof                401 403 404 404 403 401
        GET  /holds                                 302 403 200 200 403 401
        POST /holds                                 401 403 422 422 403 401
        POST /holds/{hold}/lift                     401 403 404 404 403 401
        GET  /files                                 302 403 200 200 403 401
        POST /files                                 401 403 422 422 403 401
        GET  /api/notices                           401 403 200 403 200 401
        POST /api/notices/{id}/retry                401 403 404 403 404 401
        GET  /notices                               302 403 200 403 200 401
        POST /notices/{id}/retry                    401 403 404 403 404 401
        GET  /api/due                               401 200 200 200 403 401
        GET  /due                                   302 200 200 200 403 401
        GET  /bench                                 302 200 200 403 403 401
        POST /bench                                 401 200 200 403 403 401
        GET  /records                               302 200 200 200 403 401
        GET  /records/{id}                          302 200 200 200 403 401
        POST /records/{id}/comments                 401 403 422 422 403 401
        POST /records/{id}/holds                    401 403 422 422 403 401
        POST /records/{id}/holds/{hold}/lift        401 403 404 404 403 401
        GET  /api/sites                             401 200 200 200 200 401
        GET  /api/people                            401 200 200 200 200 401
        GET  /api/machines                          401 200 200 200 403 401
        GET  /api/instruments                       401 200 200 200 403 401
        GET  /api/procedures                        401 200 200 200 403 401
        GET  /api/packs                             401 200 200 200 403 401
        POST /api/packs                             401 403 422 403 403 401
        POST /api/packs/check                       401 403 422 422 403 401
        POST /api/packs/{digest}/comparison         401 403 404 404 403 401
        POST /api/packs/{digest}/activation         401 403 422 403 403 401
        GET  /api/waivers                           401 200 200 200 403 401
        POST /api/waivers                           401 403 422 403 403 401
        POST /api/waivers/{id}/withdrawal           401 403 422 403 403 401
        GET  /waivers                               302 200 200 200 403 401
        POST /waivers                               401 403 422 403 403 401
        POST /waivers/{id}/withdrawal               401 403 404 403 403 401
        POST /api/packs/{digest}/rejudging          401 403 404 403 403 401
        GET  /api/packs/{digest}/rejudging          401 403 404 404 403 401
        GET  /rules                                 302 200 200 200 403 401
        POST /rules                                 401 403 422 403 403 401
        POST /rules/check                           401 403 422 422 403 401
        POST /rules/comparison                      401 403 404 404 403 401
        POST /rules/activation                      401 403 422 403 403 401
        POST /rules/rejudging                       401 403 404 403 403 401
        GET  /api/certificate                       401 200 200 200 200 401
        GET  /api/ledger/checkpoint                 401 200 200 200 200 401
        GET  /api/ledger/key                        401 200 200 200 200 401
        GET  /api/ledger/growth                     401 200 200 200 200 401
        GET  /api/ledger/entries/{index:long}       401 403 200 200 403 401
        GET  /api/ledger/entries/{index:long}/proof 401 403 200 200 403 401
        POST /api/verifications                     401 415 415 415 415 401
        GET  /verify                                302 200 200 200 200 401
        POST /verify                                401 200 200 200 200 401
        GET  /people                                302 403 403 403 200 401
        POST /people                                401 403 403 403 422 401
        POST /people/{id}/roles                     401 403 403 403 422 401
        POST /people/{id}/elsewhere                 401 403 403 403 422 401
        POST /people/{id}/lock                      401 403 403 403 422 401
        POST /people/{id}/unlock                    401 403 403 403 422 401
        POST /people/{id}/reset                     401 403 403 403 422 401
        GET  /people/{id}/removal                   302 403 403 403 404 401
        POST /people/{id}/remove                    401 403 403 403 422 401
        GET  /keys                                  302 403 403 403 200 401
        POST /keys                                  401 403 403 403 422 401
        POST /keys/{id}/revoke                      401 403 403 403 303 401
        GET  /acts                                  302 403 403 403 200 401
        POST /api/people/{id}/erasure               401 403 403 403 422 401
        """;

    private readonly ServiceRun _run = shop.Run;

    private static List<(string Method, string Route, int[] Statuses)> Rows { get; } =
    [
        .. Expected
            .Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            .Select(words =>
                (
                    words[0],
                    words[1],
                    words[2..].Select(word => int.Parse(word, CultureInfo.InvariantCulture)).ToArray()
                )
            ),
    ];

    private IEnumerable<RouteEndpoint> Routes =>
        _run.Get<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>();

    [Fact]
    public void EveryRoute_OfTheService_StandsInTheTableHereAndNoOtherDoes()
    {
        var mapped = Routes
            .SelectMany(route =>
                AccessTable.MethodsOf(route) is { Count: > 0 } methods
                    ? methods.Select(method => $"{method} {AccessTable.PatternOf(route)}")
                    : [$"GET {AccessTable.PatternOf(route)}"]
            )
            .Order(StringComparer.Ordinal);

        Assert.Equal(Rows.Select(row => $"{row.Method} {row.Route}").Order(StringComparer.Ordinal), mapped);
    }

    [Fact]
    public void NoRoute_OfTheService_GoesRoundTheTable() =>
        Assert.DoesNotContain(
            Routes,
            route =>
                route.Metadata.GetMetadata<IAllowAnonymous>() is not null
                || route.Metadata.GetMetadata<IAuthorizeData>() is not null
        );

    [Fact]
    public void EveryForm_OfAPage_IsHeldAgainstItsToken() =>
        Assert.All(
            Routes.Where(route =>
                AccessTable.MethodsOf(route).Any(method => !HttpMethods.IsGet(method))
                && !AccessTable.PatternOf(route).StartsWith("/api/", StringComparison.Ordinal)
            ),
            route => Assert.NotNull(route.Metadata.GetMetadata<FormTokenMetadata>())
        );

    [Fact]
    public async Task EveryRoute_AsEveryRoleAndAsNobody_AnswersAsTheTableSays()
    {
        string?[] keys =
        [
            null,
            _run.NewKey(Roles.Technician, "tech-02"),
            _run.NewKey(Roles.Lead),
            _run.NewKey(Roles.Officer),
            _run.NewKey(Roles.Administrator),
            DrawnSecret.KeyStart + DrawnSecret.Secret(),
        ];
        List<string> wrong = [];
        for (var who = 0; who < keys.Length; who++)
        {
            using var client = _run.ClientWith(keys[who]);
            foreach (var (method, route, statuses) in Rows)
            {
                using var request = Request(method, route);
                using var answer = await client.SendAsync(request);
                if ((int)answer.StatusCode != statuses[who])
                {
                    wrong.Add(
                        $"{method} {route}, column {who + 1}: {(int)answer.StatusCode}, expected {statuses[who]}"
                    );
                }
            }
        }

        Assert.Empty(wrong);
    }

    [Fact]
    public async Task Address_ThatIsNone_IsToldToThoseWhoAreKnownAlone()
    {
        using var nobody = _run.ClientWith(null);

        using var known = await _run.GetAsync("api/nothing");
        using var unknown = await nobody.GetAsync(new Uri("api/nothing", UriKind.Relative));

        Assert.Equal(404, (int)known.StatusCode);
        Assert.Equal(401, (int)unknown.StatusCode);
        Assert.Equal("Bearer", unknown.Headers.WwwAuthenticate.ToString());
        Assert.EndsWith(
            "not-known",
            (await ServiceRun.JsonAsync(unknown)).GetProperty("type").GetString(),
            StringComparison.Ordinal
        );
    }

    private static string KindOf(string route) =>
        route is "/api/packs" or "/api/packs/check" ? "application/zip" : "application/json";

    private static HttpRequestMessage Request(string method, string route)
    {
        var path = route
            .Replace("{index:long}", "0", StringComparison.Ordinal)
            .Replace(
                "{id}",
                route.Contains("records", StringComparison.Ordinal) ? "J-1" : "none",
                StringComparison.Ordinal
            );
        var query =
            route.EndsWith("amendments", StringComparison.Ordinal) ? "?by=lead-01&reason=x"
            : route.EndsWith("growth", StringComparison.Ordinal) ? "?from=0"
            : "";
        var request = new HttpRequestMessage(
            HttpMethod.Parse(method),
            new Uri(path.TrimStart('/') + query, UriKind.Relative)
        );
        if (method == "POST")
        {
            request.Content = route.StartsWith("/api/", StringComparison.Ordinal)
                ? new ByteArrayContent(Encoding.UTF8.GetBytes("{}"))
                {
                    Headers = { ContentType = new MediaTypeHeaderValue(KindOf(route)) },
                }
                : new FormUrlEncodedContent([]);
        }

        return request;
    }
}

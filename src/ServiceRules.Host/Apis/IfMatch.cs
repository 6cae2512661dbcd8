using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary>
/// The header <c>If-Match</c> (RFC 9110, section 13.1.1) of what corrects a record: the <c>ETag</c> under which the record was read.
/// </summary>
internal static class IfMatch
{
    /// <summary>What has to hold, asked inside the transaction; null: nothing was sent.</summary>
    /// <returns>What is wrong with the header; null when nothing.</returns>
    public static IResult? Read(HttpRequest request, out Func<ILedgerReading, string, bool>? holds)
    {
        holds = null;
        var given = request.Headers.IfMatch;
        if (given.Count == 0)
        {
            return null;
        }

        if (
            !EntityTagHeaderValue.TryParseStrictList([.. given.OfType<string>()], out var tags)
            || tags.Count == 0
        )
        {
            return Complaint.Of(
                ProblemKind.BadRequest,
                $"{HeaderNames.IfMatch}: it is no list of entity tags",
                "the ETag with which GET /api/records/{id} answered, with its quotes"
            );
        }

        var spelling = AnswerJson.Options(request.HttpContext);
        holds = (log, id) =>
            RecordAnswer.Of(log, id) is { } answer
            && Conditional.TagOf(JsonSerializer.SerializeToUtf8Bytes(answer, spelling)) is var stands
            && tags.Any(tag =>
                tag.Equals(EntityTagHeaderValue.Any) || stands.Compare(tag, useStrongComparison: true)
            );
        return null;
    }
}

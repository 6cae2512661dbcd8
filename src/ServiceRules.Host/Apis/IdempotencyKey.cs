using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary>
/// The header <c>Idempotency-Key</c> (draft-ietf-httpapi-idempotency-key-header): a text of RFC 9651, quotes included.
/// </summary>
internal static partial class IdempotencyKey
{
    public const string Header = "Idempotency-Key";

    /// <summary>The key that was sent, or none; else what is wrong with it. Each caller has keys of its own.</summary>
    public static IResult? Read(HttpRequest request, out SubmissionKey? key)
    {
        key = null;
        var given = request.Headers[Header];
        if (given.Count == 0)
        {
            return null;
        }

        if (
            given is [{ } value]
            && Text().Match(value) is { Success: true } match
            && Escape().Replace(match.Groups[1].Value, "$1")
                is { Length: <= SubmissionKey.MostCharacters } text
        )
        {
            key = new SubmissionKey(Caller.Known(request.HttpContext.User).Name, text);
            return null;
        }

        return Complaint.Of(
            ProblemKind.BadRequest,
            $"{Header} is sent once, and is a text in double quotes",
            $"1 to {SubmissionKey.MostCharacters} printable characters of ASCII, such as \"8e03978e-40d5-43dd-bc93-6894a57f9324\" with its quotes"
        );
    }

    [GeneratedRegex("""\A *"((?:[\x20\x21\x23-\x5B\x5D-\x7E]|\\["\\])+)" *\z""")]
    private static partial Regex Text();

    [GeneratedRegex("""\\(["\\])""")]
    private static partial Regex Escape();
}

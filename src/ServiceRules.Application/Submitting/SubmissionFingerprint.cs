using System.Text.Json;
using ServiceRules.Application.Assessing;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Submitting;

/// <summary>
/// What makes two submissions the same: the canonical body and why it corrects. Who sends it is told apart by
/// pseudonym, and no name goes into the digest: it would stay there when the person is forgotten.
/// </summary>
internal static class SubmissionFingerprint
{
    /// <summary>Null where the body has no canonical form, so that nothing can come of it.</summary>
    public static ContentHash? Of(Submission submission)
    {
        if (CanonicalForm.Find(submission.Body.Span) is not { } body)
        {
            return null;
        }

        string?[] parts =
        [
            body.Hash.ToString(),
            submission.By is null ? "" : "by",
            submission.Correction?.Reason,
            // Where there is one site, what was kept before there could be several stays what it was.
            .. submission.Site is { } site ? (string?[])[site] : [],
        ];
        return ContentHash.Of(JsonSerializer.SerializeToUtf8Bytes(parts));
    }
}

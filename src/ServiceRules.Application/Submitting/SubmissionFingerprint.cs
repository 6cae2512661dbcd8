using System.Text.Json;
using ServiceRules.Application.Assessing;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Submitting;

/// <summary>What makes two submissions the same: the canonical body, who answers for it, and what it corrects.</summary>
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
            submission.By,
            submission.Correction?.By,
            submission.Correction?.Reason,
        ];
        return ContentHash.Of(JsonSerializer.SerializeToUtf8Bytes(parts));
    }
}

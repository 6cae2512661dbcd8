using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Submitting;

/// <summary>What a sender names a submission by, so that it can be sent again without being done again.</summary>
public sealed record SubmissionKey
{
    /// <summary>Longer keys are not taken.</summary>
    public const int MostCharacters = 255;

    /// <param name="scope">Within what the key is unique: an account or a site; empty where there are none.</param>
    /// <param name="text">The key.</param>
    /// <exception cref="ArgumentException">It is none: see <see cref="IsKey"/>.</exception>
    public SubmissionKey(string scope, string text)
    {
        ArgumentNullException.ThrowIfNull(scope);
        ArgumentNullException.ThrowIfNull(text);
        if (!IsKey(text) || !IsScope(scope))
        {
            throw new ArgumentException(
                $"no key of a submission; accepted: 1 to {MostCharacters} characters, none of them a control character"
            );
        }

        Scope = scope;
        Text = text;
    }

    /// <summary>Within what the key is unique.</summary>
    public string Scope { get; }

    /// <summary>The key.</summary>
    public string Text { get; }

    /// <summary>Whether a text can be a key: not empty, not too long, and without control characters.</summary>
    public static bool IsKey(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length > 0 && IsScope(text);
    }

    private static bool IsScope(string text) => text.Length <= MostCharacters && PlainText.Is(text);
}

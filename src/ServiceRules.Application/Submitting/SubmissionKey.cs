namespace ServiceRules.Application.Submitting;

/// <summary>What a sender names a submission by, so that it can be sent again without being done again.</summary>
/// <param name="Scope">Within what the key is unique: an account or a site; empty where there are none.</param>
/// <param name="Text">The key.</param>
public sealed record SubmissionKey(string Scope, string Text)
{
    /// <summary>Longer keys are not taken.</summary>
    public const int MostCharacters = 255;
}

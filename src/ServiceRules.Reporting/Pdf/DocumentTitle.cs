namespace ServiceRules.Reporting.Pdf;

/// <summary>What the file says about itself outside its pages.</summary>
/// <param name="Title">Shown by readers in place of the file name.</param>
/// <param name="Subject">One line on the content.</param>
/// <param name="Language">Language of the text, such as <c>en-GB</c>.</param>
/// <param name="IssuedAt">The instant stamped on the file, its attachments and its signature.</param>
public sealed record DocumentTitle(string Title, string Subject, string Language, DateTimeOffset IssuedAt);

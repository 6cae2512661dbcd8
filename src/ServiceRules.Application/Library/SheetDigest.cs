using ServiceRules.Application.Assessing;
using ServiceRules.Evidence;
using ServiceRules.Formats.Sheets;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Library;

/// <summary>What tells one state of a limit sheet from another, however its file is laid out.</summary>
public static class SheetDigest
{
    /// <summary>The digest of the sheet in canonical form (RFC 8785).</summary>
    public static ContentHash Of(LimitSheet sheet) =>
        CanonicalForm.Of(LimitSheetFormat.Current.Write(sheet)).Hash;
}

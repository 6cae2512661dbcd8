namespace ServiceRules.Reporting.Pdf;

/// <summary>
/// The version of the drawing, told in every file. The same documents drawn by the same version give the same marks;
/// whatever changes them (a word, a font, a place, the order of reading) is a new version, so that a report drawn
/// before it is told apart from one whose pages were changed.
/// </summary>
public static class DrawingVersion
{
    public const string Current = "4";

    /// <summary>How every version calls itself, before its number.</summary>
    public const string Name = "ServiceRules, drawing ";

    /// <summary>What the file names as its maker.</summary>
    public const string Creator = $"{Name}{Current}";

    /// <summary>What the file names as its writer: another version of the library may write otherwise.</summary>
    public static string Producer => $"PDFsharp {PdfSharp.PdfSharpProductVersionInformation.SemanticVersion}";
}

using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports;

/// <summary>The report's few colours and type sizes. Every colour also differs in lightness, and never speaks alone.</summary>
internal static class Palette
{
    public static readonly Ink Ink = Ink.Hex("16222c");
    public static readonly Ink Quiet = Ink.Hex("51616d");
    public static readonly Ink Hair = Ink.Hex("c3ccd2");
    public static readonly Ink Ground = Ink.Hex("f2f4f5");
    public static readonly Ink Metal = Ink.Hex("dfe4e7");
    public static readonly Ink Steel = Ink.Hex("9aa7b0");

    public static readonly Ink In = Ink.Hex("0a6b5c");
    public static readonly Ink Out = Ink.Hex("b8330f");
    public static readonly Ink NotProven = Ink.Hex("775a00");
    public static readonly Ink Stop = Ink.Hex("7d1128");

    public static readonly Ink Tolerance = Ink.Hex("e3e9e8");
    public static readonly Ink Acceptance = Ink.Hex("b4d6cd");

    public static readonly TextStyle Outcome = new(Face.TextBold, 20, Ink, 1.15);
    public static readonly TextStyle Heading = new(Face.TextBold, 10.5, Ink, 1.3);
    public static readonly TextStyle SubHeading = new(Face.TextBold, 8.2, Ink, 1.3);
    public static readonly TextStyle Body = new(Face.Text, 8.2, Ink, 1.3);
    public static readonly TextStyle BodyBold = new(Face.TextBold, 8.2, Ink, 1.3);
    public static readonly TextStyle Small = new(Face.Narrow, 7.4, Ink, 1.25);
    public static readonly TextStyle SmallBold = new(Face.NarrowBold, 7.4, Ink, 1.25);
    public static readonly TextStyle SmallQuiet = new(Face.Narrow, 7.4, Quiet, 1.25);
    public static readonly TextStyle Tiny = new(Face.Narrow, 6.2, Ink, 1.22);
    public static readonly TextStyle TinyBold = new(Face.NarrowBold, 6.2, Ink, 1.22);
    public static readonly TextStyle TinyQuiet = new(Face.Narrow, 6.2, Quiet, 1.22);
    public static readonly TextStyle Label = new(Face.Narrow, 5.4, Quiet, 1.2);

    public static readonly Stroke HairLine = new(Hair, 0.5);
    public static readonly Stroke Outline = new(Ink, 0.7);
    public static readonly Stroke Thin = new(Quiet, 0.5);
}

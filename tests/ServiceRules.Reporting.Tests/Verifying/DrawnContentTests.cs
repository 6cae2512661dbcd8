using System.Globalization;
using System.IO.Compression;
using System.Text.RegularExpressions;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Tests.Reports;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>
/// A signer who shows other pages than the evidence gives. Every signature here is true, made with the trusted key over
/// the very bytes of the file: only holding the pages against the attached documents can tell.
/// </summary>
public sealed partial class DrawnContentTests
{
    private static readonly DateTimeOffset IssuedAt = SampleReport.IssuedAt.AddDays(42).AddMilliseconds(321);

    private static readonly Assessed Job = SampleJobs.HeightCheckOfTwelve;

    private static readonly byte[] Report = Write(Job);

    private static byte[] Write(Assessed job) =>
        JobReport.Write(job, ReportTerms.Default, SampleReport.Key, IssuedAt);

    private static VerifiedReport Verify(byte[] file) =>
        new VerifyReport(
            new PdfReportReader([SampleReport.Key.Certificate]),
            new Judge(),
            new ReportRedrawing()
        ).Verify(file);

    private static byte[] Forged(Action<ForgedReport> change)
    {
        var forged = new ForgedReport(Report);
        change(forged);
        return forged.Sign(SampleReport.Key);
    }

    private static void AssertOnlyTheDrawingFails(string told, byte[] file)
    {
        var verified = Verify(file);

        var failed = Assert.Single(
            verified.Points,
            point => point.Result is not (PointResult.Passed or PointResult.NotClaimed)
        );
        Assert.Equal((VerifyReport.Drawn, PointResult.Failed), (failed.Name, failed.Result));
        Assert.True(failed.Told.Contains(told, StringComparison.Ordinal), failed.Told);
        Assert.Equal(ReportStanding.NotGenuine, verified.Standing);
    }

    [Fact]
    public void Verify_ReportsAsDrawn_AreGenuine()
    {
        Assert.All(
            new[] { Report, Write(SampleJobs.FullService) },
            file =>
            {
                var verified = Verify(file);
                Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
            }
        );
    }

    [Fact]
    public void Verify_TakenApartAndPutTogetherAgain_IsGenuine() =>
        Assert.Equal(ReportStanding.Genuine, Verify(Forged(_ => { })).Standing);

    [Fact]
    public void Verify_UnderAnotherCulture_IsGenuine()
    {
        Assert.NotEmpty(Report);
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = Adorned();
        try
        {
            var verified = Verify(Report);
            Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Verify_ReleaseDrawnOverAHold_FailsByName()
    {
        Assert.Equal(Disposition.Hold, Job.Assessment.Job.Disposition);
        var released = Job with
        {
            Assessment = Job.Assessment with { Job = new Outcome(Disposition.Release, []) },
        };

        AssertOnlyTheDrawingFails("it says `May go out` where they give `Hold`", Write(released));
    }

    [Fact]
    public void Verify_TwoDrawnLettersExchanged_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "page 1: other marks are drawn",
            Forged(file =>
            {
                var content = file.Referred(file.Find("/Type/Page/"), "Contents");
                file.SetStream(content, TwoLetters().Replace(file.StreamOf(content), "<$2$1", 1));
            })
        );

    [Fact]
    public void Verify_WhitePatchDrawnOverAWord_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "page 1: other marks are drawn",
            Forged(file =>
            {
                var content = file.Referred(file.Find("/Type/Page/"), "Contents");
                file.SetStream(content, file.StreamOf(content) + "\n1 1 1 rg 60 740 200 60 re f");
            })
        );

    [Fact]
    public void Verify_FontExchangedForAnother_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "page 1: a font",
            Forged(file =>
            {
                var described = file.All("/FontFile2 ");
                var (one, two) = (described[0], described[1]);
                file[one] = file[one]
                    .Replace(
                        $"/FontFile2 {file.Referred(one, "FontFile2")} ",
                        $"/FontFile2 {file.Referred(two, "FontFile2")} ",
                        StringComparison.Ordinal
                    );
            })
        );

    [Fact]
    public void Verify_OneByteOfAnOutlineChanged_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "page 1: a font program is not the one",
            Forged(file =>
            {
                var program = file.Referred(file.Find("/FontFile2 "), "FontFile2");
                var content = file.UnpackedStreamOf(program);
                content[^100] ^= 1;
                file.SetPackedStream(program, content, CompressionLevel.Optimal);
            })
        );

    [Fact]
    public void Verify_FontPackedInAnotherWay_IsGenuine() =>
        Assert.Equal(
            ReportStanding.Genuine,
            Verify(
                Forged(file =>
                {
                    var program = file.Referred(file.Find("/FontFile2 "), "FontFile2");
                    file.SetPackedStream(
                        program,
                        file.UnpackedStreamOf(program),
                        CompressionLevel.NoCompression
                    );
                })
            ).Standing
        );

    [Fact]
    public void Verify_LettersThatCopyAsOthers_FailByName() =>
        AssertOnlyTheDrawingFails(
            "page 1: a font is not the one",
            Forged(file =>
            {
                var map = file.Find("beginbfrange");
                file.SetStream(
                    map,
                    file.StreamOf(map).Replace("><0048>", "><0049>", StringComparison.Ordinal)
                );
            })
        );

    [Fact]
    public void Verify_PageAdded_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "the file has 2 pages, the attached documents give 1",
            Forged(file =>
            {
                var page = file.Find("/Type/Page/");
                var more = file.Add(file[page].Replace("/StructParents 0", "", StringComparison.Ordinal));
                var pages = file.Find("/Type/Pages");
                file[pages] = file[pages]
                    .Replace("/Count 1", "/Count 2", StringComparison.Ordinal)
                    .Replace("]", $" {more} 0 R]", StringComparison.Ordinal);
            })
        );

    [Fact]
    public void Verify_NoteAdded_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "page 1: there are other notes",
            Forged(file =>
            {
                var note = file.Add(
                    "<</Type/Annot/Subtype/FreeText/Rect[50 700 300 800]/Contents(released)/DA(/F0 12 Tf)>>"
                );
                var page = file.Find("/Type/Page/");
                file[page] = file[page].Replace("/Annots[", $"/Annots[{note} 0 R ", StringComparison.Ordinal);
            })
        );

    [Fact]
    public void Verify_SignatureFieldThatCoversThePage_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "something else is there",
            Forged(file =>
            {
                var field = file.Find("/FT/Sig");
                file[field] = Rectangle().Replace(file[field], "/Rect[0 0 595 842]");
            })
        );

    [Fact]
    public void Verify_AppearanceGivenToTheSignatureField_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "something else is there",
            Forged(file =>
            {
                var appearance = file.Find("/Subtype/Form/BBox");
                file.SetStream(appearance, "1 0 0 rg 0 0 90 90 re f");
            })
        );

    [Fact]
    public void Verify_PageMadeSmaller_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "page 1: the page has another size",
            Forged(file =>
            {
                var page = file.Find("/Type/Page/");
                file[page] = file[page]
                    .Replace("/MediaBox[0 0 ", "/MediaBox[0 90 ", StringComparison.Ordinal);
            })
        );

    [Fact]
    public void Verify_FigureToldInOtherWords_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "what is read aloud",
            Forged(file =>
            {
                var figure = file.Find("/S/Figure");
                file[figure] = Alternative().Replace(file[figure], "/Alt(all in)");
            })
        );

    [Fact]
    public void Verify_TitleOfAnotherJob_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "the file describes itself",
            Forged(file =>
            {
                var information = file.Find("/Title(");
                file[information] = file[information]
                    .Replace("/Title(Service report ", "/Title(Service report X", StringComparison.Ordinal);
            })
        );

    [Fact]
    public void Verify_MetadataThatSaysMore_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "the file describes itself",
            Forged(file =>
            {
                var metadata = file.Find("/Type/Metadata");
                file.SetStream(
                    metadata,
                    file.StreamOf(metadata)
                        .Replace("Service report", "Release report", StringComparison.Ordinal)
                );
            })
        );

    [Fact]
    public void Verify_AttachmentDescribedOtherwise_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "the attachments are described otherwise",
            Forged(file =>
            {
                var record = file.Find("/F(record.json)");
                file[record] = file[record].Replace("/Desc(the ", "/Desc(not the ", StringComparison.Ordinal);
            })
        );

    [Fact]
    public void Verify_ObjectThatNothingRefersTo_FailsByName() =>
        AssertOnlyTheDrawingFails(
            "a report drawn anew",
            Forged(file => file.Add("<</Length 5>>\nstream\nBT ET\nendstream"))
        );

    [Theory]
    [InlineData("ServiceRules, drawing 9999", "drawing 9999")]
    [InlineData("ServiceRules", "`ServiceRules`")]
    [InlineData("\\033[2J", "[U+001B][2J")]
    public void Verify_DrawnByAnotherVersion_IsNotEstablishedAndNotGenuine(string creator, string told)
    {
        var verified = Verify(
            Forged(file =>
            {
                var information = file.Find("/Title(");
                file[information] = file[information]
                    .Replace(
                        $"/Creator({DrawingVersion.Creator})",
                        $"/Creator({creator})",
                        StringComparison.Ordinal
                    );
            })
        );

        var point = Assert.Single(
            verified.Points,
            one => one.Result is not (PointResult.Passed or PointResult.NotClaimed)
        );
        Assert.Equal((VerifyReport.Drawn, PointResult.NotEstablished), (point.Name, point.Result));
        Assert.Contains(told, point.Told, StringComparison.Ordinal);
        Assert.Equal(ReportStanding.NotEstablished, verified.Standing);
    }

    /// <summary>Numbers and dates look most unlike themselves here, also on a machine without the culture's data.</summary>
    private static CultureInfo Adorned()
    {
        var culture = (CultureInfo)CultureInfo.GetCultureInfo("ar-SA").Clone();
        culture.NumberFormat.NumberDecimalSeparator = "٫";
        culture.NumberFormat.NegativeSign = "−";
        culture.DateTimeFormat.DateSeparator = ".";
        culture.DateTimeFormat.TimeSeparator = ".";
        return culture;
    }

    [GeneratedRegex("<([0-9A-F]{4})(?!\\1)([0-9A-F]{4})")]
    private static partial Regex TwoLetters();

    [GeneratedRegex(@"/Rect\[[^\]]*\]")]
    private static partial Regex Rectangle();

    [GeneratedRegex(@"/Alt\([^)]*\)")]
    private static partial Regex Alternative();
}

using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Tests.Reports;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>Files that were changed at random: never genuine, never a crash, never dear to look at.</summary>
public class MutationTests
{
    private const int Mutations = 5000;

    /// <summary>
    /// Memory that looking at a broken file may take, to a byte of it: a value in the file is at least two bytes and
    /// takes about a hundred. What it takes in time is bounded by the same: no step of it goes over the file more often
    /// than once for the shape and once for the digest.
    /// </summary>
    private const int AllocatedPerByte = 80;

    private const int AllocatedAnyway = 512 * 1024;

    /// <summary>Everything a report has, and as little of it as can be: the work grows with the square of the length.</summary>
    private static readonly byte[] Small = PdfReportWriter.Write(
        Pagination.LayOut(
            new SignaturePlace(new Paragraph("held", SampleReport.Body)),
            new PageDesign(200, 100, 10, 10, null, null),
            FontMeasure.Shipped
        ),
        new DocumentTitle("Job", "Report", "en-GB", SampleReport.IssuedAt),
        [SampleReport.Json("record.json", "{\"a\":1}")],
        SampleReport.Key
    );

    private static X509Certificate2 Own => SampleReport.Key.Certificate;

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Verify_EveryByteInTurnChanged_IsNeverGenuine(bool wholly)
    {
        Assert.True(PdfVerification.Verify(Small, VerificationGrounds.Of([Own])).IsGenuine);

        _ = Parallel.For(
            0,
            Small.Length,
            () => (byte[])[.. Small],
            (at, _, copy) =>
            {
                copy[at] ^= wholly ? (byte)0xFF : (byte)(1 << (at % 8));
                Assert.False(
                    PdfVerification.Verify(copy, VerificationGrounds.Of([Own])).IsGenuine,
                    $"byte {at} changed unseen"
                );
                copy[at] = Small[at];
                return copy;
            },
            _ => { }
        );
    }

    [Fact]
    public void Verify_RandomMutations_AreNeverGenuineAndTakeBoundedMemory()
    {
        var one = Written(SampleJobs.HeightCheckOfTwelve);
        var other = Written(SampleJobs.FullService);
        var verify = new VerifyReport(new PdfReportReader([Own]), new Judge(), new ReportRedrawing());
        Assert.Equal(ReportStanding.Genuine, verify.Verify(one).Standing);

        _ = Parallel.For(
            0,
            Mutations,
            seed =>
            {
                var mutated = Mutated(new Random(seed), one, other);
                var before = GC.GetAllocatedBytesForCurrentThread();
                var standing = verify.Verify(mutated).Standing;
                var allocated = GC.GetAllocatedBytesForCurrentThread() - before;

                var same = mutated.AsSpan().SequenceEqual(one) || mutated.AsSpan().SequenceEqual(other);
                Assert.True(same || standing != ReportStanding.Genuine, $"seed {seed} is genuine");
                Assert.True(
                    same || allocated <= AllocatedAnyway + ((long)AllocatedPerByte * mutated.Length),
                    $"seed {seed}: {allocated} bytes allocated for a file of {mutated.Length}"
                );
            }
        );
    }

    [Theory]
    [InlineData("[", "1 ", "]")]
    [InlineData("[", "[]", "]")]
    [InlineData("<<", "/A", "")]
    [InlineData("(", "(", "")]
    [InlineData("[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[", "[", "")]
    public void Verify_OneObjectOfEndlessValues_TakesBoundedMemory(string start, string middle, string end)
    {
        const int Length = 8 * 1024 * 1024;
        var body = new StringBuilder(start, Length)
            .Insert(start.Length, middle, Length / middle.Length)
            .Append(end);
        var text = $"%PDF-1.7\n%\u00D3\u00F4\u00CC\u00E1\n1 0 obj\n{body}\nendobj\n";
        var file = Encoding.Latin1.GetBytes(
            text
                + "xref\n0 2\n0000000000 65535 f \n0000000015 00000 n \n"
                + $"trailer\n<</ID[<00><00>]/Info 1 0 R/Root 1 0 R/Size 2>>\nstartxref\n{text.Length}\n%%EOF\n"
        );

        var before = GC.GetAllocatedBytesForCurrentThread();
        var verified = PdfVerification.Verify(file, VerificationGrounds.Of([Own]));
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;

        Assert.Equal(PointState.Failed, verified.StateOf(VerificationCheck.FileShape));
        Assert.True(
            allocated <= AllocatedAnyway + ((long)AllocatedPerByte * file.Length),
            $"{allocated} bytes"
        );
    }

    private static byte[] Written(Assessed job) =>
        JobReport.Write(job, ReportTerms.Default, SampleReport.Key, SampleReport.IssuedAt);

    private static byte[] Mutated(Random random, byte[] one, byte[] other)
    {
        var mutated = one;
        for (var count = random.Next(1, 4); count > 0; count--)
        {
            mutated = random.Next(6) switch
            {
                0 => Inserted(random, mutated),
                1 => Deleted(random, mutated),
                2 => Overwritten(random, mutated),
                3 => Spliced(random, mutated, other),
                4 => Exchanged(random, mutated),
                _ => WithWord(random, mutated),
            };
        }
        return mutated;
    }

    private static byte[] Inserted(Random random, byte[] file)
    {
        var more = new byte[random.Next(1, 200)];
        random.NextBytes(more);
        var at = random.Next(file.Length + 1);
        return [.. file.AsSpan(0, at), .. more, .. file.AsSpan(at)];
    }

    private static byte[] Deleted(Random random, byte[] file)
    {
        var at = random.Next(file.Length);
        var length = Math.Min(random.Next(1, 2000), file.Length - at);
        return [.. file.AsSpan(0, at), .. file.AsSpan(at + length)];
    }

    private static byte[] Overwritten(Random random, byte[] file)
    {
        byte[] changed = [.. file];
        var at = random.Next(file.Length);
        random.NextBytes(changed.AsSpan(at, Math.Min(random.Next(1, 64), file.Length - at)));
        return changed;
    }

    /// <summary>The beginning of one report and the end of another, or a piece of the other put in place.</summary>
    private static byte[] Spliced(Random random, byte[] file, byte[] other)
    {
        var at = random.Next(file.Length);
        var from = random.Next(other.Length);
        if (random.Next(2) == 0)
        {
            return [.. file.AsSpan(0, at), .. other.AsSpan(from)];
        }
        byte[] changed = [.. file];
        var length = Math.Min(random.Next(1, 5000), Math.Min(file.Length - at, other.Length - from));
        other.AsSpan(from, length).CopyTo(changed.AsSpan(at));
        return changed;
    }

    private static byte[] Exchanged(Random random, byte[] file)
    {
        byte[] changed = [.. file];
        var length = random.Next(1, 500);
        var (one, two) = (random.Next(file.Length - length), random.Next(file.Length - length));
        file.AsSpan(one, length).CopyTo(changed.AsSpan(two));
        file.AsSpan(two, length).CopyTo(changed.AsSpan(one));
        return changed;
    }

    /// <summary>A word that means something to readers of such files.</summary>
    private static byte[] WithWord(Random random, byte[] file)
    {
        string[] words =
        [
            "/ByteRange[0 0 0 0]",
            "/Contents<00>",
            "\nendobj\n1 0 obj\n",
            "\nendstream",
            "startxref\n0\n%%EOF\n",
            "/Prev 0",
            "99999999999999999999",
            "-1",
            "((((",
            "<<<<",
            "%",
        ];
        byte[] changed = [.. file];
        var word = Encoding.Latin1.GetBytes(words[random.Next(words.Length)]);
        word.CopyTo(changed, random.Next(file.Length - word.Length));
        return changed;
    }
}

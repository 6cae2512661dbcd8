using System.Diagnostics;
using System.Text;
using FsCheck.Xunit;
using ServiceRules.Formats.Json;

namespace ServiceRules.Formats.Tests.Json;

/// <summary>No input ends in anything but a value or problems.</summary>
public sealed class HostileInputTests
{
    private static readonly byte[] Valid = Encoding.UTF8.GetBytes(ShedFormat.Valid);

    [Fact]
    public void Read_EveryPrefixOfAValidDocument_IsOneProblem()
    {
        for (int length = 0; length < Valid.Length; length++)
        {
            bool read = ShedFormat
                .Format.Read(Valid.AsMemory(0, length))
                .TryGet(out _, out ProblemReport problems);
            Assert.False(read, $"the first {length} bytes were accepted");
            Problem problem = Assert.Single(problems.Told);
            Assert.True(problem.Code is ProblemCode.Syntax or ProblemCode.Encoding, problem.ToString());
        }
    }

    [Property(MaxTest = 2_000)]
    public bool Read_MutatedBytes_EndsInAnAnswer(ushort[] places, byte[] units)
    {
        byte[] mutated = [.. Valid];
        for (int i = 0; i < Math.Min(places.Length, units.Length); i++)
        {
            mutated[places[i] % mutated.Length] = units[i];
        }

        return IsAnAnswer(mutated);
    }

    [Property(MaxTest = 500)]
    public bool Read_SplicedText_EndsInAnAnswer(ushort from, ushort length, ushort to)
    {
        int start = from % Valid.Length;
        byte[] piece = Valid[start..Math.Min(Valid.Length, start + (length % 40))];
        int at = to % Valid.Length;
        return IsAnAnswer([.. Valid[..at], .. piece, .. Valid[at..]]);
    }

    [Property(MaxTest = 500)]
    public bool Read_AnyBytes_EndsInAnAnswer(byte[] bytes) => IsAnAnswer(bytes);

    [Fact]
    public void Read_FiftyMegabytes_StopsAtTheBound()
    {
        using EndlessStream stream = new(50L * 1024 * 1024);
        Stopwatch watch = Stopwatch.StartNew();
        Assert.False(ShedFormat.Format.Read(stream).TryGet(out _, out ProblemReport problems));
        Assert.Equal(ProblemCode.Size, Assert.Single(problems.Told).Code);
        Assert.InRange(stream.Given, 20_001, 200_000);
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(2));
    }

    [Fact]
    public void Read_ManyUnknownNames_TakesBoundedTime()
    {
        StringBuilder text = new("{\"format\": \"shed/1\"");
        for (int i = 0; i < 1_500; i++)
        {
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $",\"m{i}\":{i}");
        }

        Stopwatch watch = Stopwatch.StartNew();
        ShedFormat
            .Format.Read(Encoding.UTF8.GetBytes(text.Append('}').ToString()))
            .TryGet(out _, out var problems);
        Assert.Equal(ReadLimits.ProblemsTold, problems.Told.Length);
        Assert.Equal(1_500 + 4 - ReadLimits.ProblemsTold, problems.Untold);
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(2));
    }

    private static bool IsAnAnswer(byte[] bytes)
    {
        bool read = ShedFormat.Format.Read(bytes).TryGet(out Shed? shed, out ProblemReport problems);
        return read ? shed is not null && problems.IsEmpty : problems.Told.All(IsPlaced);
    }

    private static bool IsPlaced(Problem problem) =>
        problem is { Line: >= 1, Column: >= 1 } && problem.Found.Length <= 6 * (ReadLimits.FoundLength + 1);
}

using System.Numerics;
using CsCheck;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.TwoPorts;

public sealed class TwoPortAlgebraTests
{
    private static readonly Gen<Complex> Small = Gen.Select(
        Gen.Double[-0.6, 0.6], Gen.Double[-0.6, 0.6], static (a, b) => new Complex(a, b));
    private static readonly Gen<Complex> Reference = Gen.Select(
        Gen.Double[5, 300], Gen.Double[-100, 100], static (a, b) => new Complex(a, b));
    private static readonly Gen<ScatteringMatrix> Any = Gen.Select(
        Small, Small, Small, Small, static (a, b, c, d) => new ScatteringMatrix(a, b, c + 0.7, d));

    /// <summary>Series 50 ohm between 50 ohm ports: S11 = 1/3, S21 = 2/3 (hand: Z / (Z + 2 Z0) and 2 Z0 / (Z + 2 Z0)).</summary>
    [Fact]
    public void FromChain_series_resistor_divides_by_hand()
    {
        ScatteringMatrix s = TwoPortAlgebra.FromChain(new(1, 50, 0, 1), 50, 50)!.Value;
        Assert.Equal(1.0 / 3, s.S11.Real, 1e-15);
        Assert.Equal(2.0 / 3, s.S21.Real, 1e-15);
        Assert.Equal(s.S21, s.S12);
    }

    /// <summary>Shunt 25 ohm: y = G Z0 = 2, S11 = -y / (2 + y) = -0.5, S21 = 2 / (2 + y) = 0.5.</summary>
    [Fact]
    public void FromImpedance_shunt_resistor_divides_by_hand()
    {
        ScatteringMatrix s = TwoPortAlgebra.FromImpedance(new(25, 25, 25, 25), 50, 50)!.Value;
        Assert.Equal(-0.5, s.S11.Real, 1e-15);
        Assert.Equal(0.5, s.S21.Real, 1e-15);
        Assert.Null(TwoPortAlgebra.ToAdmittance(s, 50, 50));
    }

    [Fact]
    public void ToImpedance_of_a_through_does_not_exist()
    {
        Assert.Null(TwoPortAlgebra.ToImpedance(ScatteringMatrix.Through, 50, 50));
        Assert.Equal(TwoPortMatrix.Identity, TwoPortAlgebra.ToChain(ScatteringMatrix.Through, 50, 50));
    }

    [Fact]
    public void Conversions_go_round_in_every_description() => Gen.Select(Any, Reference, Reference).Sample((s, z1, z2) =>
    {
        Near(s, TwoPortAlgebra.FromImpedance(TwoPortAlgebra.ToImpedance(s, z1, z2)!.Value, z1, z2)!.Value);
        Near(s, TwoPortAlgebra.FromAdmittance(TwoPortAlgebra.ToAdmittance(s, z1, z2)!.Value, z1, z2)!.Value);
        Near(s, TwoPortAlgebra.FromChain(TwoPortAlgebra.ToChain(s, z1, z2)!.Value, z1, z2)!.Value);
    });

    /// <summary>The three descriptions are of one two-port: Z is the inverse of Y, and A = Z11 / Z21.</summary>
    [Fact]
    public void Conversions_agree_with_each_other() => Gen.Select(Any, Reference, Reference).Sample((s, z1, z2) =>
    {
        TwoPortMatrix z = TwoPortAlgebra.ToImpedance(s, z1, z2)!.Value;
        TwoPortMatrix y = TwoPortAlgebra.ToAdmittance(s, z1, z2)!.Value;
        TwoPortMatrix chain = TwoPortAlgebra.ToChain(s, z1, z2)!.Value;
        TwoPortMatrix one = z * y;
        Near(Complex.One, one.M11);
        Near(Complex.Zero, one.M12);
        Near(z.M11 / z.M21, chain.M11);
        Near(-Complex.One / y.M21, chain.M12);
        Near(Complex.One / z.M21, chain.M21);
        Near(z.M22 / z.M21, chain.M22);

        // h and g by their definitions from Z (h11 = det Z / Z22, h12 = Z12 / Z22, h21 = -Z21 / Z22, h22 = 1 / Z22).
        TwoPortMatrix h = new(z.Determinant / z.M22, z.M12 / z.M22, -z.M21 / z.M22, 1 / z.M22);
        Near(s, TwoPortAlgebra.FromHybrid(h, z1, z2)!.Value);
        Near(s, TwoPortAlgebra.FromInverseHybrid(h.Inverse()!.Value, z1, z2)!.Value);
    });

    [Fact]
    public void Renormalise_equals_the_way_by_impedances_and_returns() =>
        Gen.Select(Any, Gen.Select(Reference, Reference), Gen.Select(Reference, Reference)).Sample((s, from, to) =>
    {
        ScatteringMatrix there = TwoPortAlgebra.Renormalise(s, from.Item1, from.Item2, to.Item1, to.Item2)!.Value;
        TwoPortMatrix z = TwoPortAlgebra.ToImpedance(s, from.Item1, from.Item2)!.Value;
        Near(TwoPortAlgebra.FromImpedance(z, to.Item1, to.Item2)!.Value, there);
        Near(s, TwoPortAlgebra.Renormalise(there, to.Item1, to.Item2, from.Item1, from.Item2)!.Value);
    });

    /// <summary>
    /// Power waves: a load of the conjugate of a complex reference reflects nothing, whatever passes. Kurokawa's property.
    /// </summary>
    [Fact]
    public void Renormalise_to_the_conjugate_of_the_input_impedance_reflects_nothing() => Reference.Sample(z =>
    {
        // A through is closed by z2 at port 2, so port 1 shows z2; matched for the reference z1 = z2*.
        ScatteringMatrix s = TwoPortAlgebra.Renormalise(ScatteringMatrix.Through, 50, 50, Complex.Conjugate(z), z)!.Value;
        Near(Complex.Zero, s.S11);
        Near(1.0, s.S21.Magnitude);
    });

    [Fact]
    public void Cascade_equals_the_product_of_chains() => Gen.Select(Any, Any).Sample((a, b) =>
    {
        TwoPortMatrix product = TwoPortAlgebra.ToChain(a, 50, 75)!.Value * TwoPortAlgebra.ToChain(b, 75, 60)!.Value;
        Near(TwoPortAlgebra.FromChain(product, 50, 60)!.Value, TwoPortAlgebra.Cascade(a, b)!.Value);
    });

    /// <summary>Transducer gain against circuit theory: source and load as real circuits round the impedance matrix.</summary>
    [Fact]
    public void TransducerGain_equals_the_power_in_the_circuit() => Gen.Select(Any, Reference, Reference).Sample((s, zs, zl) =>
    {
        TwoPortMatrix z = TwoPortAlgebra.ToImpedance(s, 50, 50)!.Value;

        // EMF 1 V behind zs: (Z + diag(zs, zl)) I = (1, 0).
        TwoPortMatrix inverse = (z + new TwoPortMatrix(zs, 0, 0, zl)).Inverse()!.Value;
        double delivered = inverse.M21.Magnitude * inverse.M21.Magnitude * zl.Real;
        double available = 1 / (4 * zs.Real);
        Complex source = (zs - 50) / (zs + 50), load = (zl - 50) / (zl + 50);
        Near(delivered / available, TwoPortAlgebra.TransducerGain(s, source, load));

        // The available gain is the transducer gain into the conjugate match.
        Complex output = TwoPortAlgebra.OutputReflection(s, source);
        if (output.Magnitude < 0.99)
        {
            Near(TwoPortAlgebra.AvailableGain(s, source), TwoPortAlgebra.TransducerGain(s, source, Complex.Conjugate(output)));
        }

        Near(TwoPortAlgebra.InputReflection(s, load), TwoPortAlgebra.OutputReflection(s.Reversed, load));
    });

    [Fact]
    public void LargestSingularValue_of_known_matrices()
    {
        Assert.Equal(1, ScatteringMatrix.Through.LargestSingularValue, 1e-15);
        Assert.Equal(3, new ScatteringMatrix(0, 0, 3, 0).LargestSingularValue, 1e-15);

        // [1 1; 1 1] / sqrt 2 has the singular values sqrt 2 and 0.
        double r = Math.Sqrt(0.5);
        Assert.Equal(Math.Sqrt(2), new ScatteringMatrix(r, r, r, r).LargestSingularValue, 1e-15);
    }

    private static void Near(ScatteringMatrix expected, ScatteringMatrix actual)
    {
        Near(expected.S11, actual.S11);
        Near(expected.S12, actual.S12);
        Near(expected.S21, actual.S21);
        Near(expected.S22, actual.S22);
    }

    // Relative to the size: conversions near a pole lose digits in proportion to the numbers met on the way.
    private static void Near(Complex expected, Complex actual) =>
        Assert.True((expected - actual).Magnitude <= 1e-8 * (1 + expected.Magnitude), $"expected {expected}, got {actual}");
}

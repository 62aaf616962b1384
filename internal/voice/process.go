package voice

import (
	"encoding/gob"
	"fmt"
	"io"
	"os"
	"os/exec"
	"sync"
	"time"
)

// process is one recogniser's process: Ear at the other end of two pipes.
type process struct {
	cmd  *exec.Cmd
	in   io.WriteCloser
	send *gob.Encoder
	take *gob.Decoder
	rest *time.Timer // while idle
	once sync.Once
}

func startProcess(command, env []string) (*process, error) {
	p := &process{cmd: exec.Command(command[0], command[1:]...)}
	p.cmd.Env = append(os.Environ(), env...)
	in, err := p.cmd.StdinPipe()
	if err != nil {
		return nil, fmt.Errorf("the recogniser can't be started: %w", err)
	}
	out, err := p.cmd.StdoutPipe()
	if err == nil {
		err = p.cmd.Start()
	}
	if err != nil {
		in.Close()
		return nil, fmt.Errorf("the recogniser can't be started: %w", err)
	}
	p.in, p.send, p.take = in, gob.NewEncoder(in), gob.NewDecoder(out)
	return p, nil
}

// end ends the process, whatever it is doing.
func (p *process) end() {
	p.once.Do(func() {
		p.in.Close()
		_ = p.cmd.Process.Kill() // it may have ended by itself
		_ = p.cmd.Wait()
	})
}
